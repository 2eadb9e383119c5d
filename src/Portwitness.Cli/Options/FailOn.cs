using Portwitness.Cli.Shell;
using Portwitness.Contracts.V1;

namespace Portwitness.Cli.Options;

/// <summary>From which severity on a finding makes the command end with <see cref="ExitCode.Findings"/>.</summary>
internal static class FailOn
{
    public const string Default = "mismatch";

    public static readonly string[] Words = ["violation", "mismatch", "caution", "never"];

    public static int ExitCodeFor(string word, IEnumerable<Finding> findings) =>
        ExitCodeFor(word, findings.Select(static finding => finding.Severity));

    public static int ExitCodeFor(string word, IEnumerable<Severity> severities)
    {
        Severity least = word switch
        {
            "violation" => Severity.Violation,
            "mismatch" => Severity.Mismatch,
            "caution" => Severity.Caution,
            _ => Severity.Unspecified,
        };
        return severities.Any(severity => severity != Severity.Unspecified && severity <= least)
            ? ExitCode.Findings
            : ExitCode.Clean;
    }
}
