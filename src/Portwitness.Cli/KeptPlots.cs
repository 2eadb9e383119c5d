using Portwitness.Contracts.V1;

namespace Portwitness.Cli;

/// <summary>What plots are drawn from, in reports that are kept.</summary>
internal static class KeptPlots
{
    /// <summary>Takes it out, so that a kept report is word for word the one that was printed.</summary>
    public static void Remove(ProductReport report)
    {
        report.Plots.Clear();
        foreach (PowerLog log in report.PowerLogs)
        {
            log.Trace.Clear();
        }
    }
}
