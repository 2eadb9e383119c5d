using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Profile;
using Portwitness.PowerDelivery.Layout;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.PowerDelivery.Requests;

namespace Portwitness.Analysis.Rules.Requests;

/// <summary>Reserved bits of a request are not zero.</summary>
/// <remarks>
/// Only bits that R3.1 and R3.2 reserve are looked at; earlier editions reserve these and more. GiveBack is another rule's matter.
/// </remarks>
public sealed class RequestReservedBitsSet : RequestRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "request-reserved-bits-set",
        Severity = Severity.Violation,
        Title = "Reserved bits of a request are set",
        Clause = "R3.2v1.1 Tables 6.23 to 6.26",
        Why = "Reserved bits are sent as zero. A source of a later edition may take them for something that was not asked for.",
        Evidence = "The list in force, which says how the request is laid out, and every bit of the request. A fault of the partner is a note: "
            + "it says nothing of the product.",
        Editions = Editions.R3x,
        Example = new ScriptExample(
            """
            source: [5V 3A, PPS 3.3-11V 3A]
            steps:
              - attach
              - advertise
              - contract 1 at 3A
              - send sink Request 0x20038CBC
            """,
            "Bit 7 of a PPS request is set."),
        Category = RuleCategory.Requests,
    };

    /// <inheritdoc/>
    public override bool IsOfSource => false;

    /// <inheritdoc/>
    public override void Check(in ObservedRequest request, IHitSink hits)
    {
        int position = request.Request.ObjectPosition;
        if (!request.SaysRevision3 || position < 1 || position > request.Offers.Length
            || request.Offers[position - 1] is not { KindIsKnown: true, IsZero: false } offered || offered.Kind == PowerObjectKind.Reserved)
        {
            return;
        }

        BitLayout layout = RequestObject.LayoutFor(offered.Kind);
        uint set = request.Request.Raw & layout.ReservedMask;
        if (set != 0)
        {
            hits.Report(this, new Hit(Verdict.Fails, $"The sink sets reserved bits of a request for {offered}.")
            {
                Position = position, Expected = "0", Observed = $"bits 0x{set:X8} of 0x{request.Request.Raw:X8}",
            });
        }
    }
}
