using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Profile;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.PowerData;

namespace Portwitness.Analysis.Rules.Capabilities;

/// <summary>The objects of a list are not in the order of the standard.</summary>
public sealed class ObjectsOutOfOrder : CapabilityRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "objects-out-of-order",
        Severity = Severity.Violation,
        Title = "The objects are not in the standard's order",
        Clause = "R3.2v1.1 6.4.1.4, 6.5.15.1",
        Why = "Fixed supplies come by rising voltage, then battery, variable, SPR AVS and PPS. Devices that stop at the "
            + "first object that suits them get less than the source can give when the order is wrong.",
        Evidence = "Kinds and voltages of two objects that follow each other, and the edition: Revision 2.0 was not read.",
        Example = new ListExample("0x0001912C 0x0004B12C 0x0002D12C", "9 V stands behind 15 V."),
        Category = RuleCategory.Capabilities,
    };

    /// <inheritdoc/>
    public override void Check(in ListCase list, IHitSink hits)
    {
        Verdict verdict = list.Evidence.SettleSinceR30();
        OfferedObject? before = null;
        foreach (OfferedObject offered in list.Objects)
        {
            if (offered.IsZero || !offered.KindIsKnown || offered.Kind == PowerObjectKind.Reserved
                || offered.LowestVoltage() is null || offered.HighestVoltage() is null or { Millivolts: 0 })
            {
                continue;
            }

            if (before is { } last && Rank(last, list.IsEpr).CompareTo(Rank(offered, list.IsEpr)) > 0)
            {
                hits.Report(this, new Hit(verdict, $"{offered} stands behind {last}.")
                {
                    Position = offered.Position,
                    Expected = "fixed by voltage, battery and variable by minimum voltage, SPR AVS, PPS by maximum voltage"
                        + (list.IsEpr ? "; from position 8 fixed by voltage, then EPR AVS" : ""),
                    Observed = $"{last} at {last.Position}, {offered} at {offered.Position}",
                    NextStep = verdict == Verdict.CannotTell ? SourceEvidence.OldEditionNextStep : null,
                });
            }

            before = offered;
        }
    }

    // Part of the list, then kind, then the voltage that the kind is sorted by.
    private static (int Part, int Kind, int Millivolts) Rank(OfferedObject offered, bool isEpr)
    {
        int part = isEpr && offered.Position >= MessageLimits.FirstEprPosition ? 1 : 0;
        SourcePowerObject word = offered.AsSource();
        return offered.Kind switch
        {
            PowerObjectKind.Fixed => (part, 0, word.AsFixed().Voltage.Millivolts),
            PowerObjectKind.Battery => (part, 1, word.AsBattery().MinimumVoltage.Millivolts),
            PowerObjectKind.Variable => (part, 2, word.AsVariable().MinimumVoltage.Millivolts),
            PowerObjectKind.SprAvs => (part, 3, 0),
            PowerObjectKind.Pps => (part, 4, word.AsPps().MaximumVoltage.Millivolts),
            _ => (part, 5, 0),
        };
    }
}
