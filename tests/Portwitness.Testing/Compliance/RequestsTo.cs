using Portwitness.PowerDelivery.PowerData;
using Portwitness.PowerDelivery.Requests;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Testing.Compliance;

/// <summary>
/// Requests to a list, legal ones and ones that are wrong in one point, computed from R3.2v1.1, 6.4.2 and Tables 6.23 to 6.26.
/// Other tests may take theirs from here.
/// </summary>
public static class RequestsTo
{
    /// <summary>Legal requests of every object: ends and middle of what it offers.</summary>
    public static IEnumerable<RequestObject> Legal(IReadOnlyList<uint> words)
    {
        for (int index = 0; index < words.Count; index++)
        {
            if (words[index] != 0)
            {
                foreach (uint raw in Legal(index + 1, new SourcePowerObject(words[index])))
                {
                    yield return new RequestObject(raw);
                    yield return new RequestObject(raw).With(RequestObject.CapabilityMismatchField, true);
                }
            }
        }
    }

    /// <summary>Requests that break one rule, with its name.</summary>
    public static IEnumerable<(string Rule, RequestObject Request)> Illegal(IReadOnlyList<uint> words)
    {
        yield return ("request-position-invalid", new(FixedVariableRequest.Create(0, A(100), A(100)).Raw));
        for (int index = 0; index < words.Count; index++)
        {
            int position = index + 1;
            if (words[index] == 0)
            {
                yield return ("request-position-invalid", new(FixedVariableRequest.Create(position, A(100), A(100)).Raw));
                continue;
            }

            foreach ((string rule, uint raw) in Illegal(position, new SourcePowerObject(words[index])))
            {
                yield return (rule, new RequestObject(raw));
            }
        }
    }

    private static IEnumerable<uint> Legal(int position, SourcePowerObject offered)
    {
        switch (offered.Kind)
        {
            case PowerObjectKind.Fixed or PowerObjectKind.Variable:
                int most = offered.AsFixed().MaximumCurrent.Milliamperes;
                return new[] { 0, most / 20 * 10, most }.Select(current => FixedVariableRequest.Create(position, A(current), A(current)).Raw);
            case PowerObjectKind.Battery:
                int power = offered.AsBattery().MaximumPower.Milliwatts;
                return new[] { 0, power }.Select(watts => BatteryRequest.Create(position, W(watts), W(watts)).Raw);
            case PowerObjectKind.Pps:
                PpsSourceSupply pps = offered.AsPps();
                return new[] { pps.MinimumVoltage, V(4000 + 1020), pps.MaximumVoltage }
                    .Select(voltage => PpsRequest.Create(position, voltage, pps.MaximumCurrent).Raw);
            default:
                return AvsVoltages(offered).Select(voltage => AvsRequest.Create(position, V(voltage), A(AvsMost(offered, voltage))).Raw);
        }
    }

    private static IEnumerable<(string Rule, uint Raw)> Illegal(int position, SourcePowerObject offered)
    {
        const string Amount = "request-beyond-offered-current";
        const string Voltage = "request-voltage-outside-range";
        switch (offered.Kind)
        {
            case PowerObjectKind.Fixed or PowerObjectKind.Variable:
                Current more = offered.AsFixed().MaximumCurrent + A(10);
                yield return (Amount, FixedVariableRequest.Create(position, more, more).Raw);
                break;
            case PowerObjectKind.Battery:
                Power power = W(offered.AsBattery().MaximumPower.Milliwatts + 250);
                yield return (Amount, BatteryRequest.Create(position, power, power).Raw);
                break;
            case PowerObjectKind.Pps:
                PpsSourceSupply pps = offered.AsPps();
                yield return (Amount, PpsRequest.Create(position, pps.MaximumVoltage, pps.MaximumCurrent + A(50)).Raw);
                yield return (Voltage, PpsRequest.Create(position, pps.MaximumVoltage + V(20), pps.MaximumCurrent).Raw);
                yield return (Voltage, PpsRequest.Create(position, pps.MinimumVoltage - V(20), pps.MaximumCurrent).Raw);
                break;
            default:
                int[] voltages = AvsVoltages(offered);
                foreach (int voltage in voltages)
                {
                    yield return (Amount, AvsRequest.Create(position, V(voltage), A(AvsMost(offered, voltage) + 50)).Raw);
                }

                // 25 mV is the lowest bit of the field, which is sent as zero (Table 6.26).
                yield return ("request-step-invalid", AvsRequest.Create(position, V(voltages[1]), A(0)).Raw | (1u << 9));
                yield return (Voltage, AvsRequest.Create(position, V(voltages[0] - 100), A(0)).Raw);
                yield return (Voltage, AvsRequest.Create(position, V(voltages[^1] + 100), A(0)).Raw);
                break;
        }
    }

    private static int[] AvsVoltages(SourcePowerObject offered)
    {
        if (offered.Kind == PowerObjectKind.EprAvs)
        {
            return [15000, 20100, 24000, offered.AsEprAvs().MaximumVoltage.Millivolts];
        }

        return offered.AsSprAvs().MaximumCurrentTo20V == Current.Zero ? [9000, 12300, 15000] : [9000, 12300, 15000, 15100, 20000];
    }

    // SPR AVS: by the part of the range, at 15 V the larger one (Table 10.2, note 5). EPR AVS: PDP / V down to 50 mA (6.4.2.8).
    private static int AvsMost(SourcePowerObject offered, int voltage)
    {
        if (offered.Kind == PowerObjectKind.EprAvs)
        {
            return (int)Math.Min((long)offered.AsEprAvs().Pdp.Milliwatts * 1000 / voltage / 50 * 50, 5000);
        }

        int to15 = offered.AsSprAvs().MaximumCurrentTo15V.Milliamperes;
        int to20 = offered.AsSprAvs().MaximumCurrentTo20V.Milliamperes;
        return (voltage < 15000 ? to15 : voltage > 15000 ? to20 : Math.Max(to15, to20)) / 50 * 50;
    }

    private static Voltage V(int millivolts) => Portwitness.PowerDelivery.Units.Voltage.FromMillivolts(millivolts);

    private static Current A(int milliamperes) => Current.FromMilliamperes(milliamperes);

    private static Power W(int milliwatts) => Power.FromMilliwatts(milliwatts);
}
