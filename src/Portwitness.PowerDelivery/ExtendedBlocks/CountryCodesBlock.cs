using System.Collections.Immutable;
using Portwitness.PowerDelivery.Layout;

namespace Portwitness.PowerDelivery.ExtendedBlocks;

/// <summary>Country_Codes, CCDB (R3.2v1.1, 6.5.11): for which countries there is information. Bytes from memory.</summary>
/// <param name="Block">The bytes.</param>
public sealed record CountryCodesBlock(DataBlock Block)
{
    private const int CodeBytes = 2;
    private const byte AllBits = 0xFF;
    private static readonly BlockField CountField = BlockField.Bytes("Length", 0, 1);

    /// <summary>All bytes; the codes follow.</summary>
    public static BlockLayout Layout { get; } = new(
        "Country Codes Data Block", "R3.2v1.1 6.5.11 (bytes from memory)", BlockTail.CountryCodes,
        CountField, BlockField.Reserved(1, 7, 0));

    /// <summary>How many codes the block says that it has, 0 to 255; what is there is in <see cref="Codes"/>.</summary>
    public int? Count => Block.GetScaled(CountField);

    /// <summary>The complete codes that are there; null for one of which a bit was not shown.</summary>
    public ImmutableArray<CountryCode?> Codes
    {
        get
        {
            DataBlock rest = Block.From(Layout.Size);
            CountryCode?[] codes = new CountryCode?[rest.Length / CodeBytes];
            for (int i = 0; i < codes.Length; i++)
            {
                int at = i * CodeBytes;
                codes[i] = (rest.Known[at] & rest.Known[at + 1]) == AllBits
                    ? new CountryCode(rest.Bytes[at], rest.Bytes[at + 1])
                    : null;
            }

            return [.. codes];
        }
    }

    /// <summary>A last byte that is half a code.</summary>
    public DataBlock Remainder => Block.From(Layout.Size + (Codes.Length * CodeBytes));
}
