using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Profile;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Analysis.Rules.Capabilities;

/// <summary>A PPS object has a range that the standard does not have.</summary>
public sealed class PpsRangeNotStandard : CapabilityRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "pps-range-not-standard",
        Severity = Severity.Violation,
        Title = "A PPS range is not one of the standard's",
        Clause = "R3.2v1.1 Table 10.11",
        EarlierClauses = [(Editions.R30, "R3.0 ranges: 5, 9, 15 and 20 V Prog from 3.3 V, in the first versions from 3.0 V (public drivers)")],
        Why = "PPS ranges are fixed so that a device knows what it can rely on. A range of its own may leave a battery "
            + "without the voltage that it needs. Before R3.2 ranges began at 3.3 V and there was one up to 5.9 V.",
        Evidence = "The edition, where the range is that of another one.",
        Example = new ListExample("0x0001912C 0x0002D12C 0xC0F0213C", "PPS 3.3 V to 12 V is no range of any edition."),
        Category = RuleCategory.Capabilities,
    };

    /// <inheritdoc/>
    public override void Check(in ListCase list, IHitSink hits)
    {
        if (!list.IsSource)
        {
            return;
        }

        foreach (OfferedObject offered in list.Objects)
        {
            if (offered.Kind != PowerObjectKind.Pps || !offered.KindIsKnown || offered.HighestVoltage() is null)
            {
                continue;
            }

            PpsSourceSupply pps = offered.AsSource().AsPps();
            if (pps.MinimumVoltage <= pps.MaximumVoltage && list.Evidence.Settle(WrongUnder(pps.MinimumVoltage, pps.MaximumVoltage)) is { } verdict)
            {
                hits.Report(this, new Hit(
                    verdict,
                    verdict == Verdict.Fails
                        ? Phrase.Of($"{offered} is not a range of the standard.")
                        : $"{offered} is a range of R3.0 and R3.1, not of R3.2.")
                {
                    Clause = Description.ClauseFor(list.Evidence.Editions),
                    Position = offered.Position,
                    Expected = verdict == Verdict.Fails && list.Evidence.Editions != Editions.R32
                        ? "3.3 V or 5 V to 5.9 V, 11 V, 16 V or 21 V"
                        : "5 V to 11 V, 16 V or 21 V (R3.2)",
                    Observed = $"{pps.MinimumVoltage} to {pps.MaximumVoltage}",
                    NextStep = verdict == Verdict.CannotTell ? list.EditionStep : null,
                });
            }
        }
    }

    // Maxima never changed; the minimum was 3.0 V or 3.3 V before it became 5.0 V, at a revision that is not known.
    private static Editions WrongUnder(Voltage minimum, Voltage maximum)
    {
        bool minimumIsStandard = minimum == AdjustableRanges.PpsFrom5V[0].Minimum
            || minimum == AdjustableRanges.PpsFrom3V3[0].Minimum || minimum == AdjustableRanges.EarliestPpsMinimum;
        return !minimumIsStandard || !HasMaximum(AdjustableRanges.PpsFrom3V3, maximum) ? Editions.All
            : minimum == AdjustableRanges.PpsFrom5V[0].Minimum && HasMaximum(AdjustableRanges.PpsFrom5V, maximum) ? Editions.None
            : Editions.R32;
    }

    private static bool HasMaximum(IReadOnlyList<VoltageRange> ranges, Voltage maximum)
    {
        for (int index = 0; index < ranges.Count; index++)
        {
            if (ranges[index].Maximum == maximum)
            {
                return true;
            }
        }

        return false;
    }
}
