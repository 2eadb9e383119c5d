using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Profile;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Analysis.Rules.Capabilities;

/// <summary>The currents of SPR AVS are not those of the fixed supplies.</summary>
public sealed class SprAvsCurrentsDiffer : CapabilityRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "spr-avs-currents-differ",
        Severity = Severity.Violation,
        Title = "SPR AVS has other currents than the fixed supplies",
        Clause = "R3.2v1.1 Table 6.14, 10.2",
        Why = "Up to 15 V, SPR AVS gives the current of the fixed 15 V, above it that of 20 V. A device that changes from one "
            + "to the other would get less than before, or draw more than the source can give.",
        Evidence = "The edition, and the currents of all three objects.",
        Editions = Editions.R32,
        Example = new ListExample("0x0801912C 0x0002D12C 0x0004B12C 0xE0042C00", "SPR AVS has 2.67 A, 15 V has 3 A.", Edition: Editions.R32),
        Category = RuleCategory.Capabilities,
    };

    /// <inheritdoc/>
    public override void Check(in ListCase list, IHitSink hits)
    {
        if (!list.IsSource || list.HasUnknownObjects)
        {
            return;
        }

        // SPR AVS came with R3.2: who offers it claims to follow it, unless the evidence names an older edition.
        Verdict verdict = (list.Evidence.Editions & Editions.R32) != 0 ? Verdict.Fails : Verdict.CannotTell;
        foreach (OfferedObject offered in list.Objects)
        {
            if (offered.Kind == PowerObjectKind.SprAvs && offered.MaximumCurrent() is not null)
            {
                SprAvsSourceSupply avs = offered.AsSource().AsSprAvs();
                Compare(list, hits, offered, 15_000, avs.MaximumCurrentTo15V, verdict);
                Compare(list, hits, offered, 20_000, avs.MaximumCurrentTo20V, verdict);
            }
        }
    }

    private void Compare(
        in ListCase list, IHitSink hits, OfferedObject avs, int millivolts, Current current, Verdict verdict)
    {
        // Without a 20 V object the range ends at 15 V, and its second current is zero.
        Current? nearest = millivolts == 20_000 ? Current.Zero : null;
        foreach (OfferedObject offered in list.Objects)
        {
            if (offered.Kind != PowerObjectKind.Fixed || offered.HighestVoltage()?.Millivolts != millivolts)
            {
                continue;
            }

            if (offered.MaximumCurrent() is not { } other || other == current)
            {
                return;
            }

            nearest = other;
        }

        if (nearest is { } expected && expected != current)
        {
            Voltage voltage = Voltage.FromMillivolts(millivolts);
            hits.Report(this, new Hit(verdict, $"{avs}: up to {voltage} it has {current}, fixed {voltage} has {expected}.")
            {
                Position = avs.Position,
                Expected = $"{expected} up to {voltage}",
                Observed = $"{current} up to {voltage}",
                NextStep = verdict == Verdict.CannotTell ? list.EditionStep : null,
            });
        }
    }
}
