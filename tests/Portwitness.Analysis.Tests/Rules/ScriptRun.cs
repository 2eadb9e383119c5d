using System.Text;
using Portwitness.Analysis.Conversation;

namespace Portwitness.Analysis.Tests.Rules;

/// <summary>Analyses the capture that a script writes.</summary>
internal static class ScriptRun
{
    public static CaptureAnalysis Of(string edition, string source, string[] steps, CaptureOptions? options = null) =>
        CaptureRun.Told(
            Encoding.UTF8.GetString(Synthesised.Bytes(
                $"{(edition.Length == 0 ? "" : $"edition: {edition}\n")}cable: EPR detachable\n{source}\nsteps:\n"
                + string.Concat(steps.Select(step => $"  - {step}\n")))),
            options);

    /// <summary>"violation invalid-request-accepted, note ..." of the rules of a category, once for each place.</summary>
    public static string Findings(CaptureAnalysis analysis, IEnumerable<string> rules) => string.Join(", ", analysis.Findings
        .Where(finding => rules.Contains(finding.Rule))
        .SelectMany(finding => Enumerable.Repeat(finding, 1 + finding.FurtherPlaces.Length))
        .Select(finding => $"{finding.Severity.ToString().ToLowerInvariant()} {finding.Rule}")
        .Order(StringComparer.Ordinal));
}
