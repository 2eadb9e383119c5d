using Portwitness.Cli.Shell;
using Portwitness.Contracts.V1;
using Portwitness.Service.Validation;

namespace Portwitness.Cli.Calls;

/// <summary>What became of keeping a report.</summary>
internal static class StoredReports
{
    /// <summary>Says that a report was not kept, and takes that out of it: it is no fault of the input.</summary>
    /// <returns>Whether it was kept, or was not to be.</returns>
    public static bool SayWhatWasNotKept(ProductReport report, Terminal terminal)
    {
        Fault[] faults = [.. report.Faults.Where(static fault => fault.Code == ServiceFaultCodes.NotKept)];
        foreach (Fault fault in faults)
        {
            report.Faults.Remove(fault);
            terminal.Say(fault.Detail);
        }

        return faults.Length == 0;
    }
}
