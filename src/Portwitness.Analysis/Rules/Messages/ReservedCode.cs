using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Following.Links;
using Portwitness.PowerDelivery.ExtendedBlocks;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Messages;
using Portwitness.PowerDelivery.VendorDefined;

namespace Portwitness.Analysis.Rules.Messages;

/// <summary>A field of a message holds a value that the standard reserves.</summary>
internal sealed class ReservedCode : ContentRule
{
    private const int InvalidRevision = 3;
    private const int LastFailureReason = 5;
    private const int LastExtendedAlert = 4;
    private const int LastUsbMode = 2;
    private const int ReservedChargingCode = 3;
    private const int FirstCommand = 1;
    private const int LastCommand = 6;
    private const int FirstOfSvid = 16;

    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "reserved-code",
        Severity = Severity.Violation,
        Title = "A field holds a value that has no meaning",
        Clause = "R3.2v1.1 Tables 6.1, 6.27, 6.29, 6.46, 6.47, 6.49, 6.50 and 6.67",
        Why = "Nobody knows what such a value says. The partner ignores the message or resets the port, and one of a later edition may take it "
            + "for something else.",
        Evidence = "The field, and that the sender follows an edition no newer than R3.2v1.1: a later one may give the value a meaning.",
        Example = new MessageExample("AA1100000009", "EPR_Mode with action 9; the edition is not stated."),
        Category = RuleCategory.Messages,
    };

    /// <inheritdoc/>
    public override ContentFault? Find(in HeardMessage message)
    {
        if (message.View.Header.RevisionCode == InvalidRevision)
        {
            return Fault("Specification Revision", "0 to 2", InvalidRevision);
        }

        if (message.Kind == MessageKind.ExtendedControl)
        {
            return message.Block is { } block && (int?)new ExtendedControlBlock(block).Type is { } type
                && type is < (int)ExtendedControlType.EprGetSourceCap or > (int)ExtendedControlType.EprKeepAliveAck
                ? Fault("The type of Extended_Control", "1 to 4", type)
                : null;
        }

        return message.View.CompleteObjects == 0 ? null : InObject(message.Kind, message.View.ObjectAt(0));
    }

    private static ContentFault? InObject(MessageKind kind, uint word) =>
        kind == MessageKind.EPRMode ? OfEprMode(new EprModeObject(word))
        : kind == MessageKind.VendorDefined ? OfVdm(new VdmHeader(word))
        : kind == MessageKind.BIST && new BistObject(word).ModeCode is var mode && mode is not (5 or 8 or 9 or 10)
            ? Fault("The mode of BIST", "5, 8, 9 or 10", mode)
        : kind == MessageKind.EnterUSB && new EnterUsbObject(word).ModeCode is > LastUsbMode and var usb
            ? Fault("The USB mode of Enter_USB", "0 to 2", usb)
        : kind == MessageKind.BatteryStatus && new BatteryStatusObject(word).ChargingCode == ReservedChargingCode
            ? Fault("The charging status of Battery_Status", "0 to 2", ReservedChargingCode)
        : kind == MessageKind.Alert && new AlertObject(word) is { ExtendedAlert: true, ExtendedTypeCode: 0 or > LastExtendedAlert } alert
            ? Fault("The extended type of Alert", "1 to 4", alert.ExtendedTypeCode)
        : null;

    private static ContentFault? OfEprMode(EprModeObject mode) => mode.Action switch
    {
        < EprModeAction.Enter or > EprModeAction.Exit => Fault("The action of EPR_Mode", "1 to 5", (int)mode.Action),
        EprModeAction.EnterFailed when mode.Data > LastFailureReason => Fault("The reason of EPR_Mode Enter Failed", "0 to 5", mode.Data),
        _ => null,
    };

    private static ContentFault? OfVdm(VdmHeader header) =>
        !header.Structured ? null
        : header.MajorVersionCode > 1 ? Fault("The major version of a structured VDM", "0 or 1", header.MajorVersionCode)
        : header is { MajorVersionCode: 1, MinorVersionCode: > 1 } ? Fault("The minor version of a structured VDM", "0 or 1", header.MinorVersionCode)
        : header.VendorId == VdmHeader.PdSid && header.Command is < FirstCommand or (> LastCommand and < FirstOfSvid)
            ? Fault("The command of a structured VDM", "1 to 6", header.Command)
        : null;

    private static ContentFault Fault(Phrase field, Phrase expected, int code) =>
        new($"{field} has the reserved value {code}.", expected, $"{code}") { MayBeNewer = true };
}
