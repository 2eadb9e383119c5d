using Portwitness.Contracts.V1;
using Portwitness.Reports.Formats;

namespace Portwitness.Cli.Calls;

/// <summary>The service's rule catalogue, for formats that describe the rules.</summary>
internal static class RuleList
{
    /// <summary>All rules; none for a format that does not want them.</summary>
    public static async Task<IReadOnlyList<RuleDescription>> ForAsync(
        ReportFormat format, Witness.WitnessClient client, CancellationToken cancellation) => format.DescribesRules
            ? (await client.ListRulesAsync(new ListRulesRequest(), cancellationToken: cancellation)).Rules
            : [];
}
