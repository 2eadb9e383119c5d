using System.Collections.Frozen;
using Portwitness.Analysis.Evidence;
using Portwitness.Following.Links;
using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Headers;

namespace Portwitness.Analysis.Rules.Messages;

/// <summary>A message that only ports exchange goes to a cable plug, or comes from one.</summary>
internal sealed class MessageNotForCables : ContentRule
{
    // R3.2v1.1, Tables 6.5, 6.6 and 6.53, "SOP*".
    private static readonly FrozenSet<MessageKind> Allowed = FrozenSet.ToFrozenSet(
    [
        MessageKind.GoodCRC, MessageKind.Accept, MessageKind.Reject, MessageKind.SoftReset, MessageKind.NotSupported, MessageKind.GetStatus,
        MessageKind.GetRevision, MessageKind.BIST, MessageKind.EnterUSB, MessageKind.Revision, MessageKind.VendorDefined, MessageKind.Status,
        MessageKind.GetManufacturerInfo, MessageKind.ManufacturerInfo, MessageKind.SecurityRequest, MessageKind.SecurityResponse,
        MessageKind.FirmwareUpdateRequest, MessageKind.FirmwareUpdateResponse, MessageKind.VendorDefinedExtended,
    ]);

    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "message-not-for-cables",
        Severity = Severity.Violation,
        Title = "A cable plug is sent what only ports exchange",
        Clause = "R3.2v1.1 Tables 6.5, 6.6 and 6.53",
        Why = "A cable plug does not know such a message: it stays silent or answers Not_Supported, and the port that was meant never hears it.",
        Evidence = "The start of packet and the header; who sends to a cable is its VCONN source, which a capture need not show.",
        Example = new ListExample(
            """
            {"capture":1,"edition":"R3.2v1.1"}
            {"t":1000,"sop":"SOP'","hex":"8700"}
            """,
            "Get_Source_Cap on SOP'."),
        Category = RuleCategory.Messages,
    };

    /// <inheritdoc/>
    public override ContentFault? Find(in HeardMessage message) =>
        message.Sop is not (SopKind.SopPrime or SopKind.SopDoublePrime) || message.Kind.IsReserved || Allowed.Contains(message.Kind) ? null
        : new ContentFault($"{message.Kind} is between ports only, and was sent on {message.Sop.ToText()}.", "SOP", $"{message.Sop.ToText()}");
}
