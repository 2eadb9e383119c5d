using System.Globalization;
using Portwitness.Contracts.V1;

namespace Portwitness.Reports.Text;

/// <summary>What is found while a capture is recorded, a line each.</summary>
public static class WatchText
{
    /// <summary>"1.042000 s, message 2: requests object 2, 9 V, 2.22 A" and "…: contract: object 2, …", or how else it ended.</summary>
    public static void Write(TextWriter writer, Contract contract)
    {
        string[] asked =
        [
            contract.HasObjectPosition ? string.Create(CultureInfo.InvariantCulture, $"object {contract.ObjectPosition}") : "an object that is not known",
            contract.HasVoltageMv ? Amounts.Volts(contract.VoltageMv) : "", contract.HasCurrentMa ? Amounts.Amperes(contract.CurrentMa) : "",
            contract.HasPowerMw ? Amounts.Watts(contract.PowerMw) : "",
        ];
        string stage = contract.Outcome switch { "unanswered" => "requests ", "ready" => "contract: ", var other => $"{other}: " };
        writer.WriteLine(
            $"{Amounts.Seconds(contract.RequestedUs)}, message {contract.MessageIndex.ToString(CultureInfo.InvariantCulture)}: {stage}{string.Join(", ", asked.Where(static part => part.Length > 0))}");
    }

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
