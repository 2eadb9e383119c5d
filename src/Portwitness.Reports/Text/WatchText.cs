using Portwitness.Contracts.V1;

namespace Portwitness.Reports.Text;

/// <summary>What is found while a capture is recorded, a line each.</summary>
public static class WatchText
{
    /// <summary>"12.345678 s, message 17: violation pdo-order (fails): ...".</summary>
    public static void Write(TextWriter writer, WatchedFinding watched, TextStyle style)
    {
        Finding finding = watched.Finding;
        string place = finding.HasTimeUs ? Amounts.Seconds(finding.TimeUs) : "";
        string message = finding.HasMessageIndex ? $"message {finding.MessageIndex}" : "";
        string where = string.Join(", ", new[] { place, message }.Where(static part => part.Length > 0));
        string stage = watched.Withdrawn ? "taken back: " : watched.Provisional ? "so far: " : "";
        writer.WriteLine(
            $"{where}{(where.Length > 0 ? ": " : "")}{stage}{style.Severity(finding.Severity)} {VisibleText.Of(finding.Rule)}{FindingText.VerdictOf(finding)}: {VisibleText.Of(finding.Detail)}");
    }
}
