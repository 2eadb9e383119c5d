using Portwitness.Analysis.Profile;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Analysis.PdpRules;

/// <summary>Holds an SPR list of a source against the power rules at one PDP.</summary>
internal static class PowerRuleCheck
{
    /// <summary>
    /// Counts the breaches at a maximum and a present PDP in mW, and collects them when asked to. Does not allocate
    /// when not collecting.
    /// </summary>
    public static int Count(
        ReadOnlySpan<OfferedObject> objects, CableEvidence cable, int maximumPdp, int presentPdp,
        List<PowerBreach>? breaches)
    {
        int count = 0;
        foreach (OfferedObject offered in objects)
        {
            // A voltage that stands twice counts by its better object; that it stands twice is another rule's matter.
            if (Judge(offered, cable, maximumPdp, presentPdp) is { } breach
                && !(breach.Kind == PowerBreachKind.CurrentTooLow && Offers(objects, breach.Millivolts, breach.Expected)))
            {
                count++;
                breaches?.Add(breach);
            }
        }

        foreach (int millivolts in PowerRules.NormativeMillivolts)
        {
            CurrentRule rule = PowerRules.For(millivolts, maximumPdp, presentPdp);
            if (rule.Required && !Offers(objects, millivolts, 0))
            {
                count++;
                breaches?.Add(new PowerBreach(PowerBreachKind.VoltageMissing, 0, millivolts, rule.Minimum, 0, false));
            }
        }

        return count;
    }

    /// <summary>A current as far as the power rules are concerned: above 5 A is the matter of another rule.</summary>
    public static int Offered(Current current) => Math.Min(current.Milliamperes, PowerRules.ConnectorMilliamperes);

    private static PowerBreach? Judge(OfferedObject offered, CableEvidence cable, int maximumPdp, int presentPdp)
    {
        switch (offered.Kind)
        {
            case PowerObjectKind.Fixed when !offered.IsZero && offered.MaximumCurrent() is not null:
                FixedSourceSupply supply = offered.AsSource().AsFixed();
                return supply.Voltage.Millivolts == 0
                    ? null
                    : JudgeFixed(offered.Position, supply, cable, maximumPdp, presentPdp);

            // PDP / V of a range is largest at its lower end; only beyond that is the rule surely broken.
            case PowerObjectKind.Variable when offered.AsSource().AsVariable() is { MinimumVoltage.Millivolts: > 0 } range:
                int most = PowerRules.RoundUp(presentPdp, range.MinimumVoltage.Millivolts);
                int current = Offered(range.MaximumCurrent);
                return current > most
                    ? new(PowerBreachKind.BeyondPdp, offered.Position, range.MinimumVoltage.Millivolts, most, current, false)
                    : null;

            // R3.2v1.1, 10.2: battery supplies by power.
            case PowerObjectKind.Battery when offered.AsSource().AsBattery() is { } battery
                    && battery.MaximumPower.Milliwatts > presentPdp:
                return new(
                    PowerBreachKind.BeyondPdp, offered.Position, battery.MaximumVoltage.Millivolts, presentPdp,
                    battery.MaximumPower.Milliwatts, false);

            default:
                return null;
        }
    }

    private static PowerBreach? JudgeFixed(
        int position, FixedSourceSupply supply, CableEvidence cable, int maximumPdp, int presentPdp)
    {
        int millivolts = supply.Voltage.Millivolts;
        int current = Offered(supply.MaximumCurrent);
        CurrentRule rule = PowerRules.For(millivolts, maximumPdp, presentPdp);
        if (current > rule.Maximum)
        {
            return new(PowerBreachKind.BeyondPdp, position, millivolts, rule.Maximum, current, false);
        }

        // Over a 3 A cable a source offers 3 A where the PDP would give more (R3.2v1.1, 4.4 and 10.2.3.2).
        bool cut = rule.Minimum > PowerRules.PlainCableMilliamperes && current == PowerRules.PlainCableMilliamperes;
        return current >= rule.Minimum || (cut && cable == CableEvidence.ThreeAmpere)
            ? null
            : new(
                PowerBreachKind.CurrentTooLow, position, millivolts, rule.Minimum, current,
                cut && cable == CableEvidence.Unknown);
    }

    // An object whose kind or voltage was never shown may be the one.
    private static bool Offers(ReadOnlySpan<OfferedObject> objects, int millivolts, int milliamperes)
    {
        foreach (OfferedObject offered in objects)
        {
            if (!offered.KindIsKnown)
            {
                return true;
            }

            if (offered.Kind != PowerObjectKind.Fixed || offered.IsZero)
            {
                continue;
            }

            FixedSourceSupply supply = offered.AsSource().AsFixed();
            if (!offered.Knows(FixedSourceSupply.VoltageField)
                || (supply.Voltage.Millivolts == millivolts && supply.MaximumCurrent.Milliamperes >= milliamperes))
            {
                return true;
            }
        }

        return false;
    }
}
