using Portwitness.Analysis.Evidence;
using Portwitness.Following.Links;
using Portwitness.PowerDelivery.Limits;

namespace Portwitness.Analysis.Rules.Messages;

/// <summary>A message is of a type that the standard reserves.</summary>
/// <remarks>Text newer than R3.2v1.1 was not read: it may give the type a meaning. R2.0 has fewer types (from memory).</remarks>
internal sealed class ReservedMessageType : ContentRule
{
    private static readonly Editions Read = Editions.R30 | Editions.R31 | Editions.R32;

    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "reserved-message-type",
        Severity = Severity.Violation,
        Title = "A message is of a reserved type",
        Clause = "R3.2v1.1 Tables 6.5, 6.6 and 6.53",
        Why = "Nobody knows what such a message says. The partner answers Not_Supported at best; one of an older edition may reset "
            + "the port.",
        Evidence = "The header, and the edition: of R3.2 also that the source's Revision message states no version newer than "
            + "R3.2v1.1.",
        Example = new MessageExample("B901", "Control message 25 has no meaning; the edition is not stated."),
        Category = RuleCategory.Messages,
    };

    /// <inheritdoc/>
    public override ContentFault? Find(in HeardMessage message) => !message.Kind.IsReserved ? null
        : new ContentFault(
            $"{message.Kind} has no meaning in R3.2v1.1.", "a message type of the standard", $"{message.Kind}")
        {
            Read = Read, MayBeNewer = true,
        };
}
