using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Profile;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.PowerData;

namespace Portwitness.Analysis.Rules.Capabilities;

/// <summary>An object offers no voltage.</summary>
public sealed class EmptyObject : CapabilityRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "empty-object",
        Severity = Severity.Violation,
        Title = "An object of the list offers nothing",
        Clause = "R3.2v1.1 6.4.1, 6.5.15.1",
        Why = "A list holds what can be asked for. An empty object takes a position that a device may count on, and some "
            + "devices stop reading at it, so that they never see what comes behind.",
        Evidence = "The object's kind and voltage bits.",
        Example = new ListExample("0x0801912C 0x00000000 0x0002D12C", "Object 2 is all zero."),
        Category = RuleCategory.Capabilities,
    };

    /// <inheritdoc/>
    public override void Check(in ListCase list, IHitSink hits)
    {
        for (int index = 0; index < list.Objects.Length; index++)
        {
            OfferedObject offered = list.Objects[index];
            bool sprPosition = !list.IsEpr || offered.Position < MessageLimits.FirstEprPosition;
            bool padding = list.IsEpr && sprPosition
                && (offered.IsZero ? !HasSprObjectBehind(list.Objects, index) : offered.Is(PowerObjectKind.Fixed));
            if (!padding && (offered.IsZero || offered.HighestVoltage()?.Millivolts == 0))
            {
                hits.Report(this, new Hit(Verdict.Fails, $"Object {offered.Position} offers 0 V.")
                {
                    Position = offered.Position,
                    Expected = "objects with a voltage, and none left empty between them",
                    Observed = $"0x{offered.Raw:X8}",
                });
            }
        }
    }

    // Positions 1 to 7 of an EPR list are filled up with zeroes behind the last SPR object.
    private static bool HasSprObjectBehind(ReadOnlySpan<OfferedObject> objects, int index)
    {
        for (int later = index + 1; later < Math.Min(objects.Length, MessageLimits.MaxSprObjects); later++)
        {
            if (objects[later].HighestVoltage() is { Millivolts: > 0 })
            {
                return true;
            }
        }

        return false;
    }
}
