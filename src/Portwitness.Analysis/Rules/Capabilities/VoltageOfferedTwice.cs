using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Profile;
using Portwitness.PowerDelivery.PowerData;

namespace Portwitness.Analysis.Rules.Capabilities;

/// <summary>Two objects of one kind have the same voltage.</summary>
public sealed class VoltageOfferedTwice : CapabilityRule
{
    private const uint BatteryVoltageBits = 0x3FFFFC00;

    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "voltage-offered-twice",
        Severity = Severity.Violation,
        Title = "One voltage is offered by two objects of the same kind",
        Clause = "R3.2v1.1 6.4.1.4",
        Why = "Only the object with the higher current belongs in the list. A device that takes the first one may get "
            + "less than the source can give.",
        Evidence = "Kinds and voltages of both objects, and the edition: Revision 2.0 was not read.",
        Example = new ListExample("0x0001912C 0x0002D0C8 0x0002D12C", "9 V is offered with 2 A and again with 3 A."),
        Category = RuleCategory.Capabilities,
    };

    /// <inheritdoc/>
    public override void Check(in ListCase list, IHitSink hits)
    {
        Verdict verdict = list.Evidence.SettleSinceR30();
        for (int later = 1; later < list.Objects.Length; later++)
        {
            OfferedObject offered = list.Objects[later];
            for (int earlier = 0; earlier < later; earlier++)
            {
                if (SameVoltage(list.Objects[earlier], offered))
                {
                    OfferedObject first = list.Objects[earlier];
                    hits.Report(this, new Hit(
                        verdict, $"Objects {first.Position} and {offered.Position} are both {offered.VoltagePhrase()}.")
                    {
                        Position = offered.Position,
                        Expected = "one object, with the higher current",
                        Observed = $"{first} and {offered}",
                        NextStep = verdict == Verdict.CannotTell ? SourceEvidence.OldEditionNextStep : null,
                    });
                    break;
                }
            }
        }
    }

    // R3.2v1.1 6.4.1.4 names fixed, variable and battery supplies; APDOs are not meant.
    private static bool SameVoltage(OfferedObject left, OfferedObject right)
    {
        if (!left.KindIsKnown || !right.KindIsKnown || left.Kind != right.Kind || left.IsZero || right.IsZero)
        {
            return false;
        }

        uint bits = left.Kind switch
        {
            PowerObjectKind.Fixed => FixedSourceSupply.VoltageField.Mask,
            PowerObjectKind.Battery or PowerObjectKind.Variable => BatteryVoltageBits,
            _ => 0,
        };
        return bits != 0 && (left.Known & right.Known & bits) == bits && (left.Raw & bits) == (right.Raw & bits);
    }
}
