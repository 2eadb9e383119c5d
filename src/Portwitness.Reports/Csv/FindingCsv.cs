using System.Globalization;
using Portwitness.Contracts.V1;
using Portwitness.Reports.Text;

namespace Portwitness.Reports.Csv;

/// <summary>Findings, a row each, with every member of the contract's message under its name there; units are part of the names.</summary>
public static class FindingCsv
{
    /// <summary>Writes the findings of all products.</summary>
    public static void Write(TextWriter writer, ReportSet set)
    {
        CsvRow.WriteHeadings(
            writer, "source", "product", "product_verdict", "rule", "severity", "verdict", "title", "detail", "clause", "file", "port",
            "arrangement", "time_us", "message_index", "object_position", "label_line", "expected", "observed", "next_step", "repeats",
            "further_places", "label", "other_label", "other_label_line", "expected_values", "observed_values");
        foreach (ReportedProduct product in set.Products)
        {
            ProductReport report = product.Read();
            foreach (Finding finding in report.Findings)
            {
                new CsvRow()
                    .Add(product.Source).Add(report.Product).Add(Words.Of(report.Verdict))
                    .Add(finding.Rule).Add(TextStyle.Plain.Severity(finding.Severity)).Add(Words.Of(finding.Verdict))
                    .Add(finding.Title).Add(finding.Detail).Add(finding.Clause).Add(finding.File).Add(finding.Port)
                    .Add(string.Join(" + ", finding.Arrangement))
                    .Add(finding.HasTimeUs ? finding.TimeUs : null)
                    .Add(finding.HasMessageIndex ? finding.MessageIndex : null)
                    .Add(finding.HasObjectPosition ? finding.ObjectPosition : null)
                    .Add(finding.HasLabelLine ? finding.LabelLine : null)
                    .Add(finding.Expected).Add(finding.Observed).Add(finding.NextStep).Add(finding.Repeats)
                    .Add(FindingPlaces.Further(finding, int.MaxValue))
                    .Add(finding.Label).Add(finding.OtherLabel).Add(finding.HasOtherLabelLine ? finding.OtherLabelLine : null)
                    .Add(FindingValues(finding.ExpectedValues)).Add(FindingValues(finding.ObservedValues))
                    .Write(writer);
            }
        }
    }
    // "9000 mV; 3000 mA; PPS": scripts split at the semicolons.
    private static string FindingValues(IEnumerable<FindingValue> values) => string.Join(
        "; ", values.Select(static value => value.HasAmount ? string.Create(CultureInfo.InvariantCulture, $"{value.Amount} {value.Unit}").TrimEnd() : value.Name));
}
