using System.Collections.Immutable;
using System.Text;
using Portwitness.PowerDelivery.ExtendedBlocks;
using Portwitness.PowerDelivery.Layout;

namespace Portwitness.PowerDelivery.Explanations;

/// <summary>Collects the lines of an explanation from layouts.</summary>
internal sealed class ExplainedFields
{
    private const string NotShown = "not shown";
    private readonly ImmutableArray<ExplainedField>.Builder lines = ImmutableArray.CreateBuilder<ExplainedField>();

    internal ImmutableArray<ExplainedField> ToImmutable() => lines.ToImmutable();

    internal void AddWord(string place, BitLayout layout, uint word, uint known)
    {
        uint whole = (uint)((1UL << layout.Width) - 1);
        foreach (BitField field in layout.Fields)
        {
            Add($"{place} {Bits(field)}", field, word, known | ~whole, layout.Clause);
        }
    }

    internal void AddHeader(string place, BitLayout layout, uint word, uint known)
    {
        int first = lines.Count;
        AddWord(place, layout, word, known);
        for (int at = first; at < lines.Count; at++)
        {
            lines[at] = lines[at] with { IsOfHeader = true };
        }
    }

    internal void AddBlockField(BlockField field, uint word, uint known, string clause)
    {
        int width = field.Length * 8;
        string place = Bytes(field.Offset, field.Length);
        string range = field.Bits.Width == width ? place : $"{place} {Bits(field.Bits)}";
        Add(range, field.Bits, word, width == 32 ? known : known | ~((1u << width) - 1), clause);
    }

    /// <summary>Bytes as a whole; nothing when there are none.</summary>
    internal void AddBytes(string range, string name, DataBlock bytes, string meaning, string clause)
    {
        if (bytes.Length > 0)
        {
            bool isKnown = bytes.IsWhollyKnown;
            lines.Add(new(range, name, isKnown ? $"0x{bytes}" : Masked(bytes), meaning, false, isKnown, clause));
        }
    }

    /// <summary>A place that holds nothing that could be read.</summary>
    internal void AddMissing(string range, string name, string meaning, string clause) =>
        lines.Add(new(range, name, "?", meaning, false, false, clause));

    internal static string Bytes(int offset, int length) =>
        length == 1 ? $"byte {offset}" : $"bytes {offset}..{offset + length - 1}";

    private static string Bits(BitField field) =>
        field.Width == 1 ? $"bit {field.Low}" : $"bits {field.High}..{field.Low}";

    private static string Masked(DataBlock bytes)
    {
        StringBuilder text = new("0x");
        for (int i = 0; i < bytes.Length; i++)
        {
            text.Append(bytes.Known[i] == 0xFF ? $"{bytes.Bytes[i]:X2}" : "??");
        }

        return text.ToString();
    }

    private static string Partly(BitField field, uint word, uint known)
    {
        if (field.Get(known) == 0)
        {
            return "?";
        }

        IEnumerable<char> bits = Enumerable.Range(0, field.Width).Select(i => 1u << (field.High - i))
            .Select(bit => (known & bit) == 0 ? '?' : (word & bit) == 0 ? '0' : '1');
        return "0b" + string.Concat(bits);
    }

    private void Add(string range, BitField field, uint word, uint known, string clause)
    {
        bool isKnown = field.Get(known) == field.Maximum;
        lines.Add(new(
            range, field.Name, isKnown ? UnitText.Hex(field.Get(word), field.Width) : Partly(field, word, known),
            isKnown ? field.Describe(word, known) : NotShown, field.IsReserved, isKnown, clause));
    }
}
