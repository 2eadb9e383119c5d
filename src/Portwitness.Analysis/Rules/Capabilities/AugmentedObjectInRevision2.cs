using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Profile;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.PowerData;

namespace Portwitness.Analysis.Rules.Capabilities;

/// <summary>A message of Revision 2.0 carries an augmented object.</summary>
/// <remarks>Revision 2.0 itself was not read; the rule can caution, not accuse.</remarks>
public sealed class AugmentedObjectInRevision2 : CapabilityRule
{
    private const ushort RevisionBits = 0x00C0;
    private const int Revision2Code = 1;

    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "augmented-object-in-revision-2",
        Severity = Severity.Caution,
        Title = "A Revision 2.0 message carries an augmented object",
        Clause = "R2.0 6.4.1 (from memory); R3.2v1.1 Table 6.8",
        Why = "PPS and AVS came with Revision 3. A device of Revision 2.0 does not know these objects and may take the "
            + "whole list for broken.",
        Evidence = "The revision, from the header of the list or as stated. It cannot say more "
            + "than \"cannot tell\": Revision 2.0 was not read.",
        Example = new ListExample("0x0001912C 0x0002D12C 0xC0DC213C", "A PPS object stands in a list of Revision 2.0.", Edition: Editions.R20),
        Editions = Editions.R10 | Editions.R20,
        Category = RuleCategory.Capabilities,
    };

    /// <inheritdoc/>
    public override void Check(in ListCase list, IHitSink hits)
    {
        bool headerSays = (list.HeaderKnown & RevisionBits) == RevisionBits && list.Header.RevisionCode == Revision2Code;
        if (!headerSays && list.Evidence.Editions != PowerDelivery.Limits.Editions.R20)
        {
            return;
        }

        foreach (OfferedObject offered in list.Objects)
        {
            if (offered.KindIsKnown && offered.Kind.IsAugmented())
            {
                hits.Report(this, new Hit(
                    Verdict.CannotTell, $"{offered} stands in a message of Revision 2.0.")
                {
                    Position = offered.Position,
                    Expected = "fixed, battery and variable objects",
                    Observed = offered.ToPhrase(),
                    NextStep = "Capture with a device of Revision 3, and compare.",
                });
                return;
            }
        }
    }
}
