using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Rules;
using Portwitness.PowerDelivery.Units;
using Portwitness.Product.Parts;

namespace Portwitness.Product.Rules.Parts;

/// <summary>Contacts carry more than they may.</summary>
public sealed class ContactsOverloaded : PartRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "contacts-overloaded",
        Severity = Severity.Mismatch,
        Title = "Contacts carry more current than they may",
        Clause = "common practice, no source read: the stated current of a contact; without it 1.25 A of a USB Type-C VBUS contact, or 0.4 A of a ribbon's, which give a caution",
        Why = "Contacts beyond their current heat the connector, and plastic melts there first.",
        Evidence = "\"contacts:\" of a part of kind contacts, connector or ribbon, and a capture of its port.",
        Example = new ProductExample(
            "0x0801912C 0x0002D12C 0x0004B12C 0x00064145", "3.25 A over two contacts are 1.63 A each.",
            Members: "parts:\n  - {part: J1, kind: contacts, node: C, contacts: 2}"),
        Category = RuleCategory.Parts,
    };

    // USB Type-C: 5 A over four VBUS contacts.
    private static readonly Current UsualPerContact = Current.FromMilliamperes(1250);

    // 0.5 A at 0.5 to 0.8 mm pitch, times 0.8 where contacts are in parallel (second-hand, the factor from memory).
    private static readonly Current UsualPerRibbonContact = Current.FromMilliamperes(400);

    /// <inheritdoc/>
    public override void Check(PartStress part, IProductHitSink hits)
    {
        if (part is not { Part: { Kind: PartKind.Contacts or PartKind.Ribbon, Contacts: { } contacts }, Level.Largest: { } current })
        {
            return;
        }

        Current allowed = part.Part.PerContact ?? (part.Part.Kind == PartKind.Ribbon ? UsualPerRibbonContact : UsualPerContact);
        if (current.Milliamperes > (long)allowed.Milliamperes * contacts)
        {
            Phrase each = $"{Current.FromMilliamperes((current.Milliamperes + contacts - 1) / contacts)}";
            bool isStated = part.Part.PerContact is not null;
            hits.Report(
                this,
                new Hit(isStated ? CurrentVerdictBy(part.Level) : Verdict.CannotTell, $"{current} over the {contacts} contacts of {part.Part.Name} are {each} each; {allowed} are allowed.")
                {
                    Expected = $"at most {allowed} a contact", Observed = each,
                    NextStep = isStated ? CurrentNextStep(part, part.Level) : "State \"amps_per_contact:\" of its data sheet.",
                },
                PlaceOf(part));
        }
    }
}
