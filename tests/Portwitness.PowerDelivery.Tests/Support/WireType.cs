using Portwitness.PowerDelivery.Layout;

namespace Portwitness.PowerDelivery.Tests.Support;

/// <summary>One kind of word, so that every kind goes through the same tests.</summary>
/// <param name="Name">As in shared/vectors.</param>
/// <param name="Layout">All its bits.</param>
/// <param name="FixedBits">Bits that say the kind; encoding sets them.</param>
/// <param name="UncodedBits">Bits that the encoder has no parameter for, besides the reserved ones.</param>
/// <param name="Decode">Word to fields, through the accessors.</param>
/// <param name="Encode">Fields to word, through Create and With.</param>
/// <param name="Print">Word to text.</param>
internal sealed record WireType(
    string Name,
    BitLayout Layout,
    uint FixedBits,
    uint UncodedBits,
    Func<uint, Dictionary<string, long>> Decode,
    Func<FieldReader, uint> Encode,
    Func<uint, string> Print)
{
    /// <summary>The bits that decoding and encoding carry over.</summary>
    public uint CodedBits => (uint)((1UL << Layout.Width) - 1) & ~Layout.ReservedMask & ~UncodedBits & ~KindBits;

    /// <summary>Type bits: those of a field named Type, APDO Subtype or VDM Type.</summary>
    private uint KindBits => Layout.Fields
        .Where(run => run.Name is "Type" or "APDO Subtype" or "VDM Type")
        .Aggregate(0u, (mask, run) => mask | run.Mask);
}

/// <summary>Fields by name; what is missing is 0.</summary>
internal sealed class FieldReader(IReadOnlyDictionary<string, long> fields)
{
    public int this[string name] => (int)fields.GetValueOrDefault(name);

    public bool Is(string name) => this[name] != 0;
}
