using Google.Protobuf;
using Google.Protobuf.Reflection;
using Portwitness.Contracts.V1;

namespace Portwitness.Reports.Tests;

/// <summary>Reports for tests of formats.</summary>
internal static class SampleReports
{
    /// <summary>
    /// What labels, file names and captures may hold to break out of a format: mark-up of Markdown, HTML and XML, tables, links,
    /// formulas, quotes, ends of lines, terminal control, bidirectional overrides, characters that XML 1.0 has no place for.
    /// </summary>
    public static TheoryData<string> Hostile =>
    [
        "a|b||c", "`code` ``x``", "*b* _i_ ~~s~~", "# heading #", "- item", "1. item", "> quote", "<script>alert(1)</script>", "&lt;&amp;&#x3c;",
        "[text](https://example.org)", "![x](y)", "https://example.org www.example.org", "--- \n===\n| a | b |\n|---|---|", "<!-- --> ]]>",
        "=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "\r=1", " =1", "＝1", "\"quoted\", \"cells\"\r\n=1", "\\", "\\|", "{0} {{", "\u001b[31mred", "\u202eltr",
        "\0\u0001\u000b\ufffe\uffff", "\u2028\u2029\u0085", "\ud83d\udd0c", "a/../../b c%20d:e?f#g", "'", "C:\\x", "",
    ];

    /// <summary>A product's report whose every list has a member and whose every text is <paramref name="text"/>.</summary>
    public static ProductReport FilledWith(string text)
    {
        ProductReport report = new();
        Fill(report, text, 6);
        report.Verdict = Verdict.Fails;
        report.Unusable = false;
        report.Devices.Unlisted = 0;
        report.Devices.Rows[0].Cells[0].HasObjectPosition.Should().BeTrue("all members are filled");
        return report;
    }

    public static ReportSet SetOf(ProductReport report, string source = "bench/th-65/product.yaml", ProductOutcome outcome = ProductOutcome.Fails) =>
        new([new ReportedProduct(source, true, outcome, () => report)]);

    public static string Write(Action<TextWriter, ReportSet> write, ReportSet set)
    {
        using StringWriter writer = new() { NewLine = "\n" };
        write(writer, set);
        return writer.ToString();
    }

    private static void Fill(IMessage message, string text, int depth)
    {
        foreach (FieldDescriptor field in message.Descriptor.Fields.InDeclarationOrder())
        {
            if (field.ContainingOneof is { IsSynthetic: false } && field.FieldNumber != field.ContainingOneof.Fields[0].FieldNumber)
            {
                continue;
            }

            // A message may hold messages of its own kind.
            if (field.FieldType == FieldType.Message && depth == 0)
            {
                continue;
            }

            if (field.IsRepeated)
            {
                ((System.Collections.IList)field.Accessor.GetValue(message)).Add(ValueOf(field, text, depth));
            }
            else
            {
                field.Accessor.SetValue(message, ValueOf(field, text, depth));
            }
        }
    }

    private static object ValueOf(FieldDescriptor field, string text, int depth)
    {
        switch (field.FieldType)
        {
            case FieldType.String: return text;
            case FieldType.Bool: return true;
            case FieldType.Int32: return 1;
            case FieldType.Int64: return 1L;
            case FieldType.UInt32: return 1u;
            case FieldType.Enum: return Enum.ToObject(field.EnumType.ClrType, 1);
            default:
                IMessage inner = (IMessage)Activator.CreateInstance(field.MessageType.ClrType)!;
                Fill(inner, text, depth - 1);
                return inner;
        }
    }
}
