using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.PdpRules;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Profile;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Analysis.Rules.Capabilities;

/// <summary>A voltage that the PDP does not make normative is above 9 V.</summary>
public sealed class OptionalVoltageAbove9V : CapabilityRule
{
    // Limits of variable and battery supplies include the tolerance of 5 % (6.4.1.2.2).
    private static readonly Voltage MaxAbsolute =
        Voltage.FromMillivolts(Electrical.SprMaximumOptional.Millivolts * 105 / 100);

    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "optional-voltage-above-9v",
        Severity = Severity.Violation,
        Title = "An optional voltage is above 9 V",
        Clause = "R3.2v1.1 10.2.3.1",
        Why = "R3.2 allows voltages beside the normative ones up to 9 V only, so that every charger of a given power offers "
            + "a device the same. A 12 V object was allowed by older editions.",
        Evidence = "The edition, and for 15 V and 20 V the port's maximum PD power.",
        Editions = Editions.R32,
        Example = new ListExample("0x0001912C 0x0002D12C 0x0003C0E1 0x0004B0B4", "12 V is offered.", Edition: Editions.R32),
        Category = RuleCategory.Capabilities,
    };

    /// <inheritdoc/>
    public override void Check(in ListCase list, IHitSink hits)
    {
        if (!list.IsSource || list.IsEpr)
        {
            return;
        }

        foreach (OfferedObject offered in list.Objects)
        {
            if (!offered.KindIsKnown || offered.Kind.IsAugmented() || offered.HighestVoltage() is not { } voltage)
            {
                continue;
            }

            bool isFixed = offered.Kind == PowerObjectKind.Fixed;
            if (voltage <= (isFixed ? Electrical.SprMaximumOptional : MaxAbsolute) || IsBeyondSpr(voltage))
            {
                continue;
            }

            int? normativeAbove = isFixed ? PowerRules.NormativeAbove(voltage.Millivolts) : null;
            Verdict? verdict = normativeAbove is { } threshold
                ? SettleNormative(list, threshold)
                : list.Evidence.Settle(Editions.R32);
            if (verdict is { } settled)
            {
                Report(list, hits, offered, voltage, settled, normativeAbove);
            }
        }
    }

    // What no SPR list may hold is another rule's matter.
    private static bool IsBeyondSpr(Voltage voltage) => voltage > AdjustableRanges.PpsFrom5V[^1].Maximum;

    // 15 V and 20 V are normative for larger sources; a managed port keeps them when its power is reduced (Table 10.3).
    private static Verdict? SettleNormative(in ListCase list, int threshold)
    {
        int pdp = list.Power.PdpMilliwatts;
        return pdp == 0 || pdp > threshold || list.Evidence.Settle(Editions.R32) is null
            || list.Evidence.Sharing is PowerSharing.InUse
            ? null
            : Verdict.CannotTell;
    }

    private void Report(
        in ListCase list, IHitSink hits, OfferedObject offered, Voltage voltage, Verdict verdict, int? normativeAbove)
    {
        Phrase detail = normativeAbove is { } threshold
            ? Phrase.Of($"{voltage} is normative above {PowerRules.Watts(threshold)}; at {list.Power} it is optional, unless the port's power is reduced now.")
            : verdict == Verdict.Fails
                ? Phrase.Of($"{offered} is an optional voltage.")
                : $"{offered} is an optional voltage: allowed before R3.2, not allowed since.";
        hits.Report(this, new Hit(verdict, detail)
        {
            Position = offered.Position,
            Expected = "optional voltages up to 9 V (R3.2)",
            Observed = $"{voltage}",
            NextStep = verdict == Verdict.Fails ? null
                : normativeAbove is null ? list.EditionStep
                : "Capture Source_Info, which says the port's maximum PDP and whether it is reduced, and state the edition.",
        });
    }
}
