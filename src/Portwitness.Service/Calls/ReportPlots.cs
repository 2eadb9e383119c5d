using Portwitness.Contracts.V1;

namespace Portwitness.Service.Calls;

/// <summary>What plots are drawn from, which kept reports have and others only when it was asked for.</summary>
public static class ReportPlots
{
    /// <summary>Takes it out of a report; what is left is word for word the report without plots.</summary>
    public static void Remove(ProductReport report)
    {
        report.Plots.Clear();
        foreach (PowerLog log in report.PowerLogs)
        {
            log.Trace.Clear();
        }
    }
}
