using Portwitness.Analysis.Evidence;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Analysis.PdpRules;

/// <summary>Holds a list of a source against the power rules of one case.</summary>
internal static class PowerRuleCheck
{
    /// <summary>Counts the breaches, and collects them when asked to. Does not allocate when not collecting.</summary>
    public static int Count(ReadOnlySpan<OfferedObject> objects, in PowerCase rules, List<PowerBreach>? breaches)
    {
        int count = 0;
        foreach (OfferedObject offered in objects)
        {
            // A voltage that stands twice counts by its better object; that it stands twice is another rule's matter.
            if (Judge(offered, rules) is { } breach
                && !(breach.Kind == PowerBreachKind.CurrentTooLow && Offers(objects, breach.Millivolts, breach.Expected)))
            {
                count++;
                breaches?.Add(breach);
            }
        }

        count += CountMissing(objects, rules, PowerRules.NormativeMillivolts, PowerBreachKind.VoltageMissing, breaches);
        if (rules.IsEpr)
        {
            count += CountMissing(objects, rules, PowerRules.EprNormativeMillivolts, PowerBreachKind.EprObjectMissing, breaches);
            count += CountMissingAvs(objects, rules, breaches);
        }

        return count;
    }

    /// <summary>A current as far as the power rules are concerned: above 5 A is the matter of another rule.</summary>
    public static int Offered(Current current) => Math.Min(current.Milliamperes, PowerRules.ConnectorMilliamperes);

    private static int CountMissing(
        ReadOnlySpan<OfferedObject> objects, in PowerCase rules, ReadOnlySpan<int> voltages, PowerBreachKind kind,
        List<PowerBreach>? breaches)
    {
        int count = 0;
        foreach (int millivolts in voltages)
        {
            CurrentRule rule = PowerRules.For(millivolts, rules.MaximumPdp, rules.PresentPdp, rules.InEprMode);
            if (rule.Required && !Offers(objects, millivolts, 0))
            {
                count++;
                breaches?.Add(new PowerBreach(kind, 0, millivolts, rule.Minimum, 0, false));
            }
        }

        return count;
    }

    // Table 10.13: EPR AVS is there as long as the lowest EPR voltage is normative.
    private static int CountMissingAvs(ReadOnlySpan<OfferedObject> objects, in PowerCase rules, List<PowerBreach>? breaches)
    {
        foreach (OfferedObject offered in objects)
        {
            if (!offered.KindIsKnown || offered.Kind == PowerObjectKind.EprAvs)
            {
                return 0;
            }
        }

        if (!PowerRules.For(PowerRules.EprNormativeMillivolts[0], rules.MaximumPdp, rules.PresentPdp).Required)
        {
            return 0;
        }

        breaches?.Add(new PowerBreach(PowerBreachKind.EprObjectMissing, 0, 0, rules.PresentPdp, 0, false));
        return 1;
    }

    private static PowerBreach? Judge(OfferedObject offered, in PowerCase rules)
    {
        if (!offered.KindIsKnown || offered.IsZero)
        {
            return null;
        }

        SourcePowerObject word = offered.AsSource();
        switch (offered.Kind)
        {
            case PowerObjectKind.Fixed when offered.MaximumCurrent() is not null && word.AsFixed().Voltage.Millivolts > 0:
                return JudgeFixed(offered.Position, word.AsFixed(), rules);

            // PDP / V of a range is largest at its lower end; only beyond that is the rule surely broken.
            case PowerObjectKind.Variable when word.AsVariable() is { MinimumVoltage.Millivolts: > 0 } range:
                int most = PowerRules.RoundUp(rules.PresentPdp, range.MinimumVoltage.Millivolts);
                int current = Offered(range.MaximumCurrent);
                return current > most
                    ? new(PowerBreachKind.BeyondPdp, offered.Position, range.MinimumVoltage.Millivolts, most, current, false)
                    : null;

            // R3.2v1.1, 10.2: battery supplies by power.
            case PowerObjectKind.Battery when word.AsBattery() is { } battery && battery.MaximumPower.Milliwatts > rules.PresentPdp:
                return new(
                    PowerBreachKind.BatteryBeyondPdp, offered.Position, battery.MaximumVoltage.Millivolts, rules.PresentPdp,
                    battery.MaximumPower.Milliwatts, false);

            case PowerObjectKind.EprAvs when rules.IsEpr && offered.Knows(EprAvsSourceSupply.PdpField):
                return JudgeEprAvs(offered.Position, word.AsEprAvs().Pdp.Milliwatts, rules.PresentPdp);

            default:
                return null;
        }
    }

    private static PowerBreach? JudgeFixed(int position, FixedSourceSupply supply, in PowerCase rules)
    {
        int millivolts = supply.Voltage.Millivolts;
        int current = Offered(supply.MaximumCurrent);
        CurrentRule rule = PowerRules.For(millivolts, rules.MaximumPdp, rules.PresentPdp, rules.InEprMode);
        if (position >= MessageLimits.FirstEprPosition && PowerRules.NormativeAbove(millivolts) >= rules.MaximumPdp)
        {
            return new(PowerBreachKind.EprVoltageNotAllowed, position, millivolts, 0, current, false);
        }

        if (current > rule.Maximum)
        {
            return new(PowerBreachKind.BeyondPdp, position, millivolts, rule.Maximum, current, false);
        }

        // Over a 3 A cable a source offers 3 A where the PDP would give more (R3.2v1.1, 4.4 and 10.2.3.2).
        bool cut = rule.Minimum > PowerRules.PlainCableMilliamperes && current == PowerRules.PlainCableMilliamperes
            && !rules.InEprMode;
        return current >= rule.Minimum || (cut && rules.Cable == CableEvidence.ThreeAmpere)
            ? null
            : new(
                PowerBreachKind.CurrentTooLow, position, millivolts, rule.Minimum, current,
                cut && rules.Cable == CableEvidence.Unknown);
    }

    // Whole watts, the integer part of the present PDP.
    private static PowerBreach? JudgeEprAvs(int position, int stated, int presentPdp) =>
        stated > presentPdp ? new(PowerBreachKind.BeyondPdp, position, 0, presentPdp, stated, false)
        : stated < presentPdp / 1000 * 1000 ? new(PowerBreachKind.CurrentTooLow, position, 0, presentPdp, stated, false)
        : null;

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
