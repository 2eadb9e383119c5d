using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.PdpRules;
using Portwitness.Analysis.Profile;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.PowerData;

namespace Portwitness.Analysis.Rules.Capabilities;

/// <summary>EPR AVS begins or ends at the wrong voltage.</summary>
public sealed class EprAvsRangeWrong : CapabilityRule
{
    // From 15 V (Table 10.12).
    private const int Beginning = 15_000;

    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "epr-avs-range-wrong",
        Severity = Severity.Violation,
        Title = "EPR AVS does not cover its range",
        Clause = "R3.2v1.1 Table 10.12",
        Why = "EPR AVS reaches from 15 V to 28, 36 or 48 V, as the PD power says. A device that sets its voltage itself cannot "
            + "use the part that is missing, or asks for one that the source is not made for.",
        Evidence = "The edition (R3.1 was not read), and the port's maximum PD power: declared, printed, or stated by EPR AVS.",
        Editions = Editions.WithEpr,
        Example = new MessageExample(
            EprExamples.List(
                0x0881912C, 0x0002D12C, 0x0004B12C, 0x000641F4, 0xE004B1F4, 0, 0, 0x0008C1F4, 0xD190968C),
            "EPR AVS of 140 W ends at 20 V."),
        Category = RuleCategory.Capabilities,
    };

    /// <inheritdoc/>
    public override void Check(in ListCase list, IHitSink hits)
    {
        if (!list.IsSource || !list.IsEpr || list.Evidence.SettleAmong(Editions.WithEpr, Editions.R32) is not { } verdict)
        {
            return;
        }

        foreach (OfferedObject offered in list.Objects)
        {
            if (!offered.Is(PowerObjectKind.EprAvs) || offered.LowestVoltage() is not { } low
                || offered.HighestVoltage() is not { } high || low > high)
            {
                continue;
            }

            bool right = low.Millivolts == Beginning && PowerRules.EprNormativeMillivolts.Contains(high.Millivolts);
            if (!right || !MayEndAt(list, high.Millivolts))
            {
                hits.Report(this, new Hit(verdict, $"{offered} is not the range of a source of {list.Power}.")
                {
                    Position = offered.Position,
                    Expected = $"15 V to {PowerRules.Volts(PowerRules.EprAvsEnd(list.Power.PdpMilliwatts))}",
                    Observed = $"{low} to {high}",
                    NextStep = verdict == Verdict.CannotTell ? list.EditionStep : null,
                });
            }
        }
    }

    // A known maximum PDP settles the end. Otherwise the object states the present PDP, which may be a reduced one: then
    // the range may go further, as long as the fixed voltage of its end is there or optional (Table 10.13).
    private static bool MayEndAt(in ListCase list, int end)
    {
        int expected = PowerRules.EprAvsEnd(list.Power.PdpMilliwatts);
        if (list.Power.Basis != PdpBasis.Derived || end <= expected)
        {
            return list.Power.PdpMilliwatts == 0 || end == expected;
        }

        return Offers(list.Objects, end)
            || !PowerRules.For(end, PowerRules.EprMaximumMilliwatts, list.Power.PdpMilliwatts).Required;
    }

    private static bool Offers(ReadOnlySpan<OfferedObject> objects, int millivolts)
    {
        foreach (OfferedObject offered in objects)
        {
            if (!offered.KindIsKnown || (offered.Kind == PowerObjectKind.Fixed && offered.HighestVoltage()?.Millivolts == millivolts))
            {
                return true;
            }
        }

        return false;
    }
}
