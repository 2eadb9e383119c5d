using System.Globalization;
using Portwitness.Contracts.V1;

namespace Portwitness.Reports.Text;

/// <summary>Reports that are kept.</summary>
public static class HistoryText
{
    /// <summary>A line for each, the newest first.</summary>
    public static void Write(TextWriter writer, ListReportsResponse found)
    {
        if (found.Reports.Count == 0)
        {
            writer.WriteLine("No report fits.");
            return;
        }

        TextTable table = new();
        table.Add("id", "kept (UTC)", "product", "sample", "firmware", "verdict", "violations", "mismatches", "cautions", "notes", "again (UTC)");
        foreach (StoredReport report in found.Reports)
        {
            table.Add(
                Amounts.Number(report.Id), Time(report.FirstSeenUs), report.Product, report.Sample, report.Firmware,
                ProductText.Word(report.Verdict), Amounts.Number(report.Violations), Amounts.Number(report.Mismatches), Amounts.Number(report.Cautions),
                Amounts.Number(report.Notes), report.LastSeenUs > report.FirstSeenUs ? Time(report.LastSeenUs) : "");
        }

        table.Write(writer, "");
        if (found.NextPageToken.Length > 0)
        {
            writer.WriteLine("There may be more: ask for more with --most, or for fewer kinds.");
        }
    }

    internal static string Time(long microseconds) =>
        DateTimeOffset.UnixEpoch.AddTicks(microseconds * TimeSpan.TicksPerMicrosecond).ToString("yyyy-MM-dd HH:mm:ss", CultureInfo.InvariantCulture);
}
