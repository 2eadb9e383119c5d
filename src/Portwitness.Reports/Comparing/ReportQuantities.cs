using Portwitness.Contracts.V1;
using Portwitness.Reports.Text;

namespace Portwitness.Reports.Comparing;

/// <summary>What a report measured: VBUS and current under contracts, interruptions, and what logs add up to.</summary>
internal sealed class ReportQuantities
{
    private readonly Dictionary<QuantityKey, Quantity> _values = [];

    /// <summary>Takes the quantities of a report; of several alike the first counts.</summary>
    public ReportQuantities(ProductReport report)
    {
        foreach (PortReport port in report.Ports)
        {
            foreach (ArrangementReport arrangement in port.Arrangements)
            {
                foreach (Contract contract in arrangement.Contracts.Where(static contract => contract.Measured is not null))
                {
                    AddContract(port.Port, PortsInUse.Key(arrangement.InUse), contract);
                }
            }
        }

        foreach (NeighbourChange change in report.NeighbourChanges.Where(static change => change.Interruption is { HasEndUs: true }))
        {
            Add(
                new QuantityKey(change.Port, PortsInUse.Key(change.InUse), $"interruption at {change.Event} {change.Neighbour}", "us"),
                new Quantity(
                    change.Interruption.EndUs - change.Interruption.StartUs, change.Interruption.LastBelowUs - change.Interruption.StartUs,
                    change.Interruption.HasLastGoodUs ? change.Interruption.EndUs - change.Interruption.LastGoodUs : null));
        }

        foreach (PowerLog log in report.PowerLogs)
        {
            string about = $"{log.Kind} at {(log.At.Length > 0 ? log.At : log.File)}";
            Add(new QuantityKey(log.Port, "", $"charge, {about}", "uAh"), Of(log.ChargeUah));
            Add(new QuantityKey(log.Port, "", $"energy, {about}", "uWh"), Of(log.EnergyUwh));
        }

        foreach (SoakResult soak in report.Soaks.Where(static soak => soak.HasSteadyMw))
        {
            Add(new QuantityKey(soak.Port, "", $"steady power at {soak.At}", "mW"), new Quantity(soak.SteadyMw));
        }

        foreach ((QuantityKey key, Quantity quantity) in OpenedFacts.QuantitiesOf(report))
        {
            Add(key, quantity);
        }
    }

    /// <summary>All of them.</summary>
    public IReadOnlyDictionary<QuantityKey, Quantity> All => _values;

    private void AddContract(string port, string inUse, Contract contract)
    {
        string terms = $"{(contract.HasVoltageMv ? Amounts.Volts(contract.VoltageMv) : "?")} {(contract.HasCurrentMa ? Amounts.Amperes(contract.CurrentMa) : "")}".Trim();
        (long? Least, long? Most) allowed = (
            contract.Measured.HasAllowedLeastMv ? contract.Measured.AllowedLeastMv : null, contract.Measured.HasAllowedMostMv ? contract.Measured.AllowedMostMv : null);
        Add(new QuantityKey(port, inUse, $"mean VBUS under {terms}", "mV"), new Quantity(contract.Measured.MeanMv) { Allowed = allowed });
        Add(new QuantityKey(port, inUse, $"lowest VBUS under {terms}", "mV"), new Quantity(contract.Measured.LeastMv));
        if (contract.Measured.HasMostCurrentMa)
        {
            Add(new QuantityKey(port, inUse, $"largest current under {terms}", "mA"), new Quantity(contract.Measured.MostCurrentMa));
        }
    }

    private void Add(QuantityKey key, Quantity quantity) => _values.TryAdd(key, quantity);

    private static Quantity Of(MeasuredAmount amount) => new(amount.Value, amount.Least, amount.HasMost ? amount.Most : null);
}
