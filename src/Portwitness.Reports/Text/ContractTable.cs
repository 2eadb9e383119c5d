using System.Globalization;
using Portwitness.Contracts.V1;

namespace Portwitness.Reports.Text;

/// <summary>Requests and what became of them.</summary>
internal static class ContractTable
{
    public static void Write(TextWriter writer, IReadOnlyCollection<Contract> contracts, string indent) => Of(contracts).Write(writer, indent);

    public static TextTable Of(IReadOnlyCollection<Contract> contracts)
    {
        TextTable table = new();
        table.Add("requested", "message", "object", "voltage", "current", "power", "outcome", "accepted after", "ready after",
            contracts.Any(contract => contract.HasEndedUs) ? "ended" : "", "");
        foreach (Contract contract in contracts)
        {
            table.Add(
                Amounts.Seconds(contract.RequestedUs),
                contract.MessageIndex.ToString(CultureInfo.InvariantCulture),
                contract.HasObjectPosition ? contract.ObjectPosition.ToString(CultureInfo.InvariantCulture) : Amounts.Unknown,
                contract.HasVoltageMv ? Amounts.Volts(contract.VoltageMv) : "-",
                contract.HasCurrentMa ? Amounts.Amperes(contract.CurrentMa) : "-",
                contract.HasPowerMw ? Amounts.Watts(contract.PowerMw) : "-",
                contract.Outcome,
                contract.HasAcceptedUs ? After(contract.AcceptedUs, contract) : "-",
                contract.HasReadyUs ? After(contract.ReadyUs, contract) : "-",
                Ended(contract),
                string.Join("; ", Remarks(contract)));
        }

        return table;
    }

    private static string Ended(Contract contract) =>
        contract.HasEndedUs ? $"{contract.EndedBy} at {Amounts.Seconds(contract.EndedUs)}" : "";

    private static IEnumerable<string> Remarks(Contract contract)
    {
        if (contract is { HasCapabilityMismatch: true, CapabilityMismatch: true })
        {
            yield return "sink wants more";
        }

        if (contract.Mode == "EPR")
        {
            yield return "EPR mode";
        }

        if (contract.Renewals > 0)
        {
            yield return $"renewed {Amounts.Count(contract.Renewals, "time", "times")}";
        }

        if (contract.Measured is { } measured)
        {
            yield return Measured(measured);
        }
    }

    private static string Measured(MeasuredPower measured)
    {
        string volts = measured.LeastMv == measured.MostMv
            ? Amounts.Volts(measured.MeanMv)
            : $"{Amounts.Volts(measured.LeastMv)} to {Amounts.Volts(measured.MostMv)}, mean {Amounts.Volts(measured.MeanMv)}";
        return $"measured {volts}{(measured.HasMostCurrentMa ? $", up to {Amounts.Amperes(measured.MostCurrentMa)}" : "")}";
    }

    private static string After(long microseconds, Contract contract) =>
        string.Create(CultureInfo.InvariantCulture, $"{(microseconds - contract.RequestedUs) / 1000m:0.###} ms");
}
