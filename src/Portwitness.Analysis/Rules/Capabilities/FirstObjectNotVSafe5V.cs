using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Profile;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.PowerData;

namespace Portwitness.Analysis.Rules.Capabilities;

/// <summary>The first object of a list is not the 5 V fixed supply.</summary>
public sealed class FirstObjectNotVSafe5V : CapabilityRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "first-object-not-vsafe5v",
        Severity = Severity.Violation,
        Title = "The first object is not the 5 V fixed supply",
        Clause = "R3.2v1.1 6.4.1.4",
        Why = "Every list begins with 5 V, which is what a port gives before anything is agreed. A device that relies on "
            + "the order may refuse the list, or ask for a voltage that it does not expect.",
        Evidence = "Kind and voltage of the first object.",
        Example = new ListExample("0x0002D12C 0x0001912C", "Object 1 offers 9 V; 5 V comes second."),
        Category = RuleCategory.Capabilities,
    };

    /// <inheritdoc/>
    public override void Check(in ListCase list, IHitSink hits)
    {
        if (list.Objects.IsEmpty || !list.Objects[0].KindIsKnown)
        {
            return;
        }

        OfferedObject first = list.Objects[0];
        if (first.Kind != PowerObjectKind.Fixed || (first.Knows(FixedSourceSupply.VoltageField)
            && first.AsSource().AsFixed().Voltage != Electrical.Safe5V))
        {
            hits.Report(this, new Hit(Verdict.Fails, $"The list begins with {first}.")
            {
                Position = 1,
                Expected = "fixed 5 V",
                Observed = first.ToPhrase(),
            });
        }
    }
}
