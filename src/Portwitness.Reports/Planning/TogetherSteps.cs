using Portwitness.Contracts.V1;
using Portwitness.Reports.Text;

namespace Portwitness.Reports.Planning;

/// <summary>Printed combinations: what is offered in the orders of plugging in, and what is given at once under load.</summary>
internal sealed class TogetherSteps(ProductReport report, StepList steps)
{
    /// <summary>Adds the steps of a combination.</summary>
    public void Add(PrintedCombination together)
    {
        string[] ports = [.. together.Ports];
        if (ports.Length < 2)
        {
            return;
        }

        // What a port offers may depend on who came first: each way round.
        foreach (string[] order in (string[][])[ports, [.. ports.Reverse()]])
        {
            AddCapture(order, together);
        }

        AddLoad(ports, together);
    }

    private void AddCapture(string[] order, PrintedCombination together)
    {
        string[] capturable = [.. order.Where(PortSteps.MayHaveConfigurationChannel)];
        if (capturable.Length == 0)
        {
            return;
        }

        PortInArrangement[] rows = [.. report.Arrangements.Where(row => row.InUse.SequenceEqual(order, StringComparer.OrdinalIgnoreCase) && row.AttachOrderKnown)];
        string[] missing = [.. capturable.Where(port => !rows.Any(row => PortSteps.SamePort(row.Port, port)))];
        string open = missing.Length == 0 || missing.Length == capturable.Length ? "" : $"; missing {string.Join(", ", missing)}";
        steps.Add(
            "together", order, $"Plug in {string.Join(", then ", order)}, and keep what {(capturable.Length == 1 ? $"{capturable[0]} offers" : $"{string.Join(" and ", capturable)} offer")} then.", StepList.StateOf(capturable.Length - missing.Length, capturable.Length),
            StepList.Files(rows.Select(static row => row.File)) + open, StepList.CaptureUs * capturable.Length, together.Line);
    }

    private void AddLoad(string[] ports, PrintedCombination together)
    {
        LoadedPort[] loads = [.. report.Loads.Where(load => load.InUse.Count == ports.Length && ports.All(port => load.InUse.Any(used => PortSteps.SamePort(used, port))))];
        string[] missing = [.. ports.Where(port => !loads.Any(load => PortSteps.SamePort(load.Port, port)))];
        string open = missing.Length == 0 || missing.Length == ports.Length ? "" : $"; missing {string.Join(", ", missing)}";
        steps.Add(
            "load together", ports, $"Load {string.Join(", ", ports)} at once for ten minutes with what is printed: {VisibleText.Of(together.Text.Trim())}.",
            StepList.StateOf(ports.Length - missing.Length, ports.Length), StepList.Files(loads.Select(static load => load.File)) + open, StepList.LoadUs, together.Line);
    }
}
