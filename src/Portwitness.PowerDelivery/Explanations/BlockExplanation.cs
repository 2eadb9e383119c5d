using Portwitness.PowerDelivery.ExtendedBlocks;
using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Layout;
using Portwitness.PowerDelivery.PowerData;

namespace Portwitness.PowerDelivery.Explanations;

/// <summary>The lines of a data block: its fields as far as the block goes, what follows them, and what is left.</summary>
internal static class BlockExplanation
{
    private const string UnknownClause = "R3.2v1.1 Table 6.53";

    private static readonly BitLayout Padding = new(
        "Padding", 32, "R3.2v1.1 6.5.15.1", new BitField("Padding", 31, 0).Means(_ => "no object"));

    internal static void Add(ExplainedFields lines, MessageKind kind, SopKind sop, DataBlock block)
    {
        BlockLayout? layout = BlockLayouts.For(kind, sop);
        int end = 0;
        foreach (BlockField field in layout is null ? [] : layout.Fields)
        {
            if (block.WordOf(field) is not { } group)
            {
                break;
            }

            lines.AddBlockField(field, group.Word, group.Known, layout!.Clause);
            end = field.End;
        }

        if (layout is not null && end < layout.Size)
        {
            AddRest(lines, block, end, "Incomplete field", "the block ends within it", layout.Clause);
            return;
        }

        switch (layout?.Tail)
        {
            case BlockTail.Words:
                end = AddObjects(lines, kind, block);
                break;
            case BlockTail.Text:
                end += AddText(lines, block, end, layout.Clause);
                break;
            case BlockTail.CountryCodes:
                end = AddCountries(lines, block, end, layout.Clause);
                break;
            case BlockTail.Opaque:
                AddRest(lines, block, end, "Data", "another document defines it", layout.Clause);
                return;
        }

        AddRest(lines, block, end, "Remainder", "not known to R3.2v1.1", layout?.Clause ?? UnknownClause);
    }

    private static void AddRest(
        ExplainedFields lines, DataBlock block, int from, string name, string meaning, string clause) =>
        lines.AddBytes(ExplainedFields.Bytes(from, block.Length - from), name, block.From(from), meaning, clause);

    private static int AddObjects(ExplainedFields lines, MessageKind kind, DataBlock block)
    {
        EprCapabilitiesBlock list = new(block);
        bool isSource = kind == MessageKind.EPRSourceCapabilities;
        foreach (EprListObject item in list.Objects)
        {
            BitLayout layout = item.IsPadding ? Padding
                : !PowerObjectKinds.IsShown(item.Raw, item.Known) ? DataObjectLayouts.UnknownLayout
                : isSource ? new SourcePowerObject(item.Raw).Layout
                : new SinkPowerObject(item.Raw).Layout;
            lines.AddWord($"object {item.Position}", layout, item.Raw, item.Known);
        }

        return block.Length - list.Remainder.Length;
    }

    private static int AddText(ExplainedFields lines, DataBlock block, int from, string clause)
    {
        int length = BlockText.LengthOf(block.From(from));
        DataBlock text = Slice(block, from, length);
        lines.AddBytes(ExplainedFields.Bytes(from, length), "Text", text, $"\"{BlockText.Read(text)}\"", clause);
        return length;
    }

    private static int AddCountries(ExplainedFields lines, DataBlock block, int from, string clause)
    {
        foreach (CountryCode? code in new CountryCodesBlock(block).Codes)
        {
            lines.AddBytes(
                ExplainedFields.Bytes(from, 2), "Country Code", Slice(block, from, 2), code?.ToString() ?? "not shown", clause);
            from += 2;
        }

        return from;
    }

    private static DataBlock Slice(DataBlock block, int from, int length) =>
        DataBlock.Of(block.Bytes.Slice(from, length), block.Known.Slice(from, length));
}
