using System.Text;

namespace Portwitness.PowerDelivery.ExtendedBlocks;

/// <summary>Text in a data block; it comes from a stranger, so that everything but printable ASCII is escaped.</summary>
internal static class BlockText
{
    /// <summary>Bytes up to and with the first zero byte that is known, or all.</summary>
    internal static int LengthOf(DataBlock block)
    {
        for (int i = 0; i < block.Length; i++)
        {
            if (block.Bytes[i] == 0 && block.Known[i] == 0xFF)
            {
                return i + 1;
            }
        }

        return block.Length;
    }

    internal static string Read(DataBlock block)
    {
        StringBuilder text = new();
        for (int i = 0; i < block.Length; i++)
        {
            if (block.Known[i] != 0xFF)
            {
                text.Append("\\x??");
            }
            else if (block.Bytes[i] == 0)
            {
                break;
            }
            else
            {
                text.Append(CountryCode.Letter(block.Bytes[i]));
            }
        }

        return text.ToString();
    }
}
