using System.Globalization;
using System.Xml;
using Portwitness.Contracts.V1;
using Portwitness.Reports.Text;

namespace Portwitness.Reports.Junit;

/// <summary>
/// Products as test cases: one that fails, or has a finding that --fail-on counts, is a failure; one of which nothing could be judged an
/// error; one that cannot be told is skipped, which is neither; its findings and next steps are in its output.
/// </summary>
public static class JunitReport
{
    /// <summary>Writes one suite with all products.</summary>
    public static void Write(TextWriter writer, ReportSet set)
    {
        // Reports are UTF-8, whatever the writer is.
        writer.Write("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n");
        using XmlWriter xml = XmlWriter.Create(
            writer, new XmlWriterSettings { Indent = true, NewLineChars = "\n", CloseOutput = false, OmitXmlDeclaration = true });
        xml.WriteStartElement("testsuites");
        xml.WriteStartElement("testsuite");
        xml.WriteAttributeString("name", "portwitness");
        WriteCount(xml, "tests", set.Products.Count);
        WriteCount(xml, "failures", set.Products.Count(static one => one.Outcome == ProductOutcome.Fails));
        WriteCount(xml, "errors", set.Products.Count(static one => one.Outcome == ProductOutcome.Unusable));
        WriteCount(xml, "skipped", set.Products.Count(static one => one.Outcome == ProductOutcome.CannotTell));
        foreach (ReportedProduct product in set.Products)
        {
            WriteCase(xml, product);
        }

        xml.WriteEndElement();
        xml.WriteEndElement();
        xml.Flush();
        writer.Write('\n');
    }

    private static void WriteCase(XmlWriter xml, ReportedProduct product)
    {
        ProductReport report = product.Read();
        xml.WriteStartElement("testcase");
        xml.WriteAttributeString("name", Visible(report.Product.Length > 0 ? report.Product : product.Source));
        xml.WriteAttributeString("classname", Visible(product.Source));
        string summary = $"{ProductText.Word(report.Verdict)}: {ProductText.FindingSummary(report)}";
        switch (product.Outcome)
        {
            case ProductOutcome.Fails:
                WriteProblem(xml, "failure", "verdict", summary, string.Join("\n\n", report.Findings.OrderBy(static one => one.Severity).Select(Text)));
                break;
            case ProductOutcome.Unusable:
                WriteProblem(xml, "error", "unusable", "nothing could be judged", string.Join("\n", report.Faults.Select(FaultText.Of)));
                break;
            case ProductOutcome.CannotTell:
                xml.WriteElementString("skipped", Visible(summary));
                break;
        }

        if (product.Outcome is ProductOutcome.Passes or ProductOutcome.CannotTell)
        {
            IEnumerable<string> next = report.NextSteps.Select(static step => "next: " + Visible(step));
            xml.WriteElementString("system-out", string.Join("\n\n", report.Findings.OrderBy(static one => one.Severity).Select(Text).Concat(next).Prepend(summary)));
        }

        xml.WriteEndElement();
    }

    private static void WriteProblem(XmlWriter xml, string element, string type, string message, string text)
    {
        xml.WriteStartElement(element);
        xml.WriteAttributeString("type", type);
        xml.WriteAttributeString("message", Visible(message));
        xml.WriteString(text);
        xml.WriteEndElement();
    }

    private static string Text(Finding finding) => string.Join('\n', FindingText.Lines(finding).Where(static line => line.Text.Length > 0)
        .Select(static line => $"  {line.Label}: {Visible(line.Text)}")
        .Prepend(Visible($"{finding.Severity.ToString().ToLowerInvariant()} {finding.Rule}{FindingText.VerdictOf(finding)}: {finding.Title}")));

    // What XML 1.0 cannot hold is among what is spelled out.
    private static string Visible(string text) => VisibleText.Of(text);

    private static void WriteCount(XmlWriter xml, string name, int count) => xml.WriteAttributeString(name, count.ToString(CultureInfo.InvariantCulture));
}
