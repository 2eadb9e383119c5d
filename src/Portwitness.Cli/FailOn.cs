using Portwitness.Contracts.V1;

namespace Portwitness.Cli;

/// <summary>From which severity on a finding makes the command end with <see cref="ExitCode.Findings"/>.</summary>
internal static class FailOn
{
    public const string Default = "mismatch";

    public static readonly string[] Words = ["violation", "mismatch", "caution", "never"];

    public static int ExitCodeFor(string word, IEnumerable<Finding> findings)
    {
        Severity least = word switch
        {
            "violation" => Severity.Violation,
            "mismatch" => Severity.Mismatch,
            "caution" => Severity.Caution,
            _ => Severity.Unspecified,
        };
        return findings.Any(finding => finding.Severity != Severity.Unspecified && finding.Severity <= least)
            ? ExitCode.Findings
            : ExitCode.Clean;
    }
}
