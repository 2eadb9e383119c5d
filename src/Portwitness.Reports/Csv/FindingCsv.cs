using Portwitness.Contracts.V1;
using Portwitness.Reports.Text;

namespace Portwitness.Reports.Csv;

/// <summary>A row for each finding.</summary>
public static class FindingCsv
{
    /// <summary>Writes the heading and the rows of all products.</summary>
    public static void Write(TextWriter writer, ReportSet set)
    {
        CsvRows.Write(
            writer, "source", "product", "product verdict", "rule", "severity", "verdict", "title", "detail", "expected", "observed", "clause", "file", "port",
            "in use", "time (us)", "message", "object", "label line", "more times", "next step");
        foreach (ReportedProduct product in set.Products)
        {
            ProductReport report = product.Read();
            foreach (Finding finding in report.Findings.OrderBy(static finding => finding.Severity))
            {
                CsvRows.Write(
                    writer, product.Source, report.Product, ProductText.Word(report.Verdict), finding.Rule, finding.Severity.ToString().ToLowerInvariant(),
                    finding.Verdict == Verdict.Unspecified ? "" : ProductText.Word(finding.Verdict), finding.Title, finding.Detail, finding.Expected,
                    finding.Observed, finding.Clause, finding.File, finding.Port, string.Join(" + ", finding.Arrangement),
                    finding.HasTimeUs ? finding.TimeUs : null, finding.HasMessageIndex ? finding.MessageIndex : null,
                    finding.HasObjectPosition ? finding.ObjectPosition : null, finding.HasLabelLine ? finding.LabelLine : null, finding.Repeats,
                    finding.NextStep);
            }
        }
    }
}
