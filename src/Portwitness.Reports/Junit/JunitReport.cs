using System.Xml;
using Portwitness.Contracts.V1;
using Portwitness.Reports.Text;

namespace Portwitness.Reports.Junit;

/// <summary>
/// Products as test cases of one suite, in the XML that build servers read: one that fails is a failure with its findings, one that
/// the evidence does not settle is skipped and says why, one of which nothing could be judged is an error. Elements keep the order
/// that the strict schemas ask for; times are left out, as nothing was timed.
/// </summary>
public static class JunitReport
{
    private static readonly XmlWriterSettings Settings = new()
    {
        Indent = true,
        NewLineChars = "\n",
        OmitXmlDeclaration = true,
        CheckCharacters = true,
    };

    /// <summary>Writes one suite.</summary>
    public static void Write(TextWriter writer, ReportSet set)
    {
        // The declaration of its own: an XmlWriter names the encoding of a text writer's memory, and files are UTF-8.
        writer.Write("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n");
        using (XmlWriter xml = XmlWriter.Create(writer, Settings))
        {
            xml.WriteStartElement("testsuites");
            xml.WriteStartElement("testsuite");
            xml.WriteAttributeString("name", "portwitness");
            WriteCount(xml, "tests", set.Products.Count);
            WriteCount(xml, "failures", set.Products.Count(static one => one.Outcome == ProductOutcome.Fails));
            WriteCount(xml, "errors", set.Products.Count(static one => one.Outcome == ProductOutcome.Unusable));
            WriteCount(xml, "skipped", set.Products.Count(static one => one.Outcome == ProductOutcome.CannotTell));
            xml.WriteStartElement("properties");
            xml.WriteStartElement("property");
            xml.WriteAttributeString("name", "portwitness version");
            xml.WriteAttributeString("value", ReportSet.ToolVersion);
            xml.WriteEndElement();
            xml.WriteEndElement();
            foreach (ReportedProduct product in set.Products)
            {
                WriteCase(xml, product, product.Read());
            }

            xml.WriteEndElement();
            xml.WriteEndElement();
        }

        writer.Write('\n');
    }

    private static void WriteCase(XmlWriter xml, ReportedProduct product, ProductReport report)
    {
        xml.WriteStartElement("testcase");
        xml.WriteAttributeString("name", VisibleText.Of(report.Product.Length > 0 ? report.Product : product.Source));
        xml.WriteAttributeString("classname", VisibleText.Of(product.Source));
        switch (product.Outcome)
        {
            case ProductOutcome.Fails:
                WriteResult(
                    xml, "failure", TextStyle.Plain.Severity(report.Findings.Select(static one => one.Severity).DefaultIfEmpty().Min()),
                    $"{ProductText.Verdict(report)}: {ProductText.FindingSummary(report)}", Findings(report));
                break;
            case ProductOutcome.Unusable:
                WriteResult(
                    xml, "error", "unusable", report.Faults.Select(FaultListText.Of).FirstOrDefault("nothing could be judged"),
                    string.Join('\n', report.Faults.Select(FaultListText.Of)));
                break;
            case ProductOutcome.CannotTell:
                xml.WriteElementString("skipped", Open(report));
                WriteOutput(xml, report);
                break;
            default:
                WriteOutput(xml, report);
                break;
        }

        xml.WriteEndElement();
    }

    private static void WriteResult(XmlWriter xml, string element, string type, string message, string text)
    {
        xml.WriteStartElement(element);
        xml.WriteAttributeString("type", type);
        xml.WriteAttributeString("message", message);
        xml.WriteString(text);
        xml.WriteEndElement();
    }

    private static void WriteOutput(XmlWriter xml, ProductReport report)
    {
        if (report.Findings.Count > 0 || report.Faults.Count > 0 || report.Rules is not null || report.VerdictBasis.Length > 0)
        {
            xml.WriteElementString("system-out", Findings(report));
        }
    }

    private static void WriteCount(XmlWriter xml, string name, int count) => xml.WriteAttributeString(name, Amounts.Number(count));

    private static string Findings(ProductReport report)
    {
        using StringWriter text = new() { NewLine = "\n" };
        if (report.VerdictBasis.Length > 0)
        {
            text.WriteLine($"Verdict: {ProductText.Verdict(report)}");
        }

        RuleText.WriteSelection(text, report.Rules, TextStyle.Plain);
        FindingText.Write(text, report.Findings, TextStyle.Plain);
        FaultListText.Write(text, report.Faults, TextStyle.Plain);
        NextStepText.Write(text, report.NextSteps, TextStyle.Plain);
        return text.ToString();
    }

    // What is not settled, and what would settle it.
    private static string Open(ProductReport report)
    {
        using StringWriter text = new() { NewLine = "\n" };
        text.Write($"{ProductText.Verdict(report)}: the evidence does not settle it.\n");
        foreach (Statement statement in report.Statements.Where(static one => one.Verdict == Verdict.CannotTell))
        {
            text.Write($"not settled: {VisibleText.Of(statement.Claim)}\n");
        }

        NextStepText.Write(text, report.NextSteps, TextStyle.Plain);
        return text.ToString();
    }
}
