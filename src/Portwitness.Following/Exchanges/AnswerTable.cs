using Portwitness.Following.Links;
using Portwitness.PowerDelivery.ExtendedBlocks;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.Messages;
using Portwitness.PowerDelivery.VendorDefined;

namespace Portwitness.Following.Exchanges;

/// <summary>What a request begins, where its answer is not the end of it.</summary>
public enum Sequel
{
    /// <summary>Nothing.</summary>
    None,

    /// <summary>After Accept the source owes PS_RDY.</summary>
    PowerTransition,

    /// <summary>After Accept power roles change.</summary>
    RoleSwap,

    /// <summary>After Accept something comes from either port that is not followed.</summary>
    Other,

    /// <summary>After Enter Acknowledged the source owes Enter Succeeded or Enter Failed.</summary>
    EprEntry,
}

/// <summary>A request and what may answer it.</summary>
/// <param name="Name">The request, as the standard names it.</param>
/// <param name="Request">Its kind.</param>
/// <param name="Detail">Its detail, where the kind alone does not say it; otherwise <see cref="Delivery.NoDetail"/>.</param>
/// <param name="Answers">Kinds that answer it, Not_Supported and Reject aside.</param>
/// <param name="AnswerDetail">The answer's detail, where its kind alone does not say it.</param>
/// <param name="IsOwed">Whether its receiver owes an answer in every state.</param>
/// <param name="Sequel">What comes after.</param>
public sealed record AnswerRow(
    string Name, MessageKind Request, int Detail, MessageKind[] Answers, int AnswerDetail = Delivery.NoDetail,
    bool IsOwed = true, Sequel Sequel = Sequel.None)
{
    /// <summary>The longest time to the answer.</summary>
    public string Limit => Request == MessageKind.VendorDefined
        ? TimingLimits.TVDMReceiverResponse
        : TimingLimits.TReceiverResponse;

    /// <summary>Whether a message is one of the answers.</summary>
    public bool IsAnsweredBy(in Delivery request, in Delivery answer)
    {
        if (Request == MessageKind.VendorDefined)
        {
            return answer.Kind == MessageKind.VendorDefined && answer.VdmType != VdmCommandType.Request
                && (answer.Detail == request.Detail || answer.Detail == Delivery.NoDetail);
        }

        return Array.IndexOf(Answers, answer.Kind) >= 0
            && (AnswerDetail == Delivery.NoDetail || answer.Detail == Delivery.NoDetail || answer.Detail == AnswerDetail
                || (Sequel == Sequel.EprEntry && answer.Detail == (int)EprModeAction.EnterFailed));
    }

    /// <summary>
    /// Whether a message refuses a request: Not_Supported refuses any (R3.2v1.1, 6.3.16); Reject did before R3.0, and answers
    /// some still.
    /// </summary>
    public static bool IsRefusal(in Delivery answer) => answer.Kind == MessageKind.NotSupported
        || (answer.Kind == MessageKind.Reject && answer.Header.RevisionCode < 2);
}

/// <summary>Which message answers which (R3.2v1.1, Tables 6.77 to 6.79 and the clauses of the messages).</summary>
public static class AnswerTable
{
    private static readonly MessageKind[] AcceptRejectWait = [MessageKind.Accept, MessageKind.Reject, MessageKind.Wait];
    private static readonly AnswerRow?[,] Plain = new AnswerRow?[3, 32];

    private static readonly AnswerRow Vendor = new("Structured VDM", MessageKind.VendorDefined, Delivery.NoDetail, [MessageKind.VendorDefined]);

    private static readonly AnswerRow[] Detailed =
    [
        new("EPR_Get_Source_Cap", MessageKind.ExtendedControl, (int)ExtendedControlType.EprGetSourceCap, [MessageKind.EPRSourceCapabilities]),
        new("EPR_Get_Sink_Cap", MessageKind.ExtendedControl, (int)ExtendedControlType.EprGetSinkCap, [MessageKind.EPRSinkCapabilities]),
        new("EPR_KeepAlive", MessageKind.ExtendedControl, (int)ExtendedControlType.EprKeepAlive, [MessageKind.ExtendedControl],
            (int)ExtendedControlType.EprKeepAliveAck),
        new("EPR_Mode Enter", MessageKind.EPRMode, (int)EprModeAction.Enter, [MessageKind.EPRMode],
            (int)EprModeAction.EnterAcknowledged, Sequel: Sequel.EprEntry),
    ];

    private static readonly HashSet<MessageKind> OnlyAnswers =
    [
        MessageKind.Accept, MessageKind.PSRDY, MessageKind.SinkCapabilities, MessageKind.BatteryStatus, MessageKind.SourceInfo,
        MessageKind.Revision, MessageKind.SourceCapabilitiesExtended, MessageKind.Status, MessageKind.BatteryCapabilities,
        MessageKind.ManufacturerInfo, MessageKind.SecurityResponse, MessageKind.FirmwareUpdateResponse, MessageKind.PPSStatus,
        MessageKind.CountryInfo, MessageKind.CountryCodes, MessageKind.SinkCapabilitiesExtended, MessageKind.EPRSinkCapabilities,
        MessageKind.Wait,
    ];

    static AnswerTable()
    {
        // Capabilities are answered by a request, unless they are themselves the answer of a source in another mode.
        Row(MessageKind.SourceCapabilities, false, Sequel.None, MessageKind.Request);
        Row(MessageKind.EPRSourceCapabilities, false, Sequel.None, MessageKind.EPRRequest);
        Row(MessageKind.Request, true, Sequel.PowerTransition, AcceptRejectWait);
        Row(MessageKind.EPRRequest, true, Sequel.PowerTransition, AcceptRejectWait);
        Row(MessageKind.GetSourceCap, true, Sequel.None, MessageKind.SourceCapabilities, MessageKind.Reject);
        Row(MessageKind.GetSinkCap, true, Sequel.None, MessageKind.SinkCapabilities, MessageKind.Reject);
        Row(MessageKind.DRSwap, true, Sequel.None, AcceptRejectWait);
        Row(MessageKind.PRSwap, true, Sequel.RoleSwap, AcceptRejectWait);
        Row(MessageKind.FRSwap, true, Sequel.RoleSwap, MessageKind.Accept);
        Row(MessageKind.VCONNSwap, true, Sequel.Other, AcceptRejectWait);
        Row(MessageKind.SoftReset, true, Sequel.None, MessageKind.Accept);
        Row(MessageKind.DataReset, true, Sequel.Other, MessageKind.Accept, MessageKind.Reject);
        Row(MessageKind.EnterUSB, true, Sequel.None, AcceptRejectWait);
        Row(MessageKind.GetSourceCapExtended, true, Sequel.None, MessageKind.SourceCapabilitiesExtended);
        Row(MessageKind.GetSinkCapExtended, true, Sequel.None, MessageKind.SinkCapabilitiesExtended);
        Row(MessageKind.GetStatus, true, Sequel.None, MessageKind.Status);
        Row(MessageKind.GetPPSStatus, true, Sequel.None, MessageKind.PPSStatus);
        Row(MessageKind.GetCountryCodes, true, Sequel.None, MessageKind.CountryCodes);
        Row(MessageKind.GetCountryInfo, true, Sequel.None, MessageKind.CountryInfo);
        Row(MessageKind.GetSourceInfo, true, Sequel.None, MessageKind.SourceInfo);
        Row(MessageKind.GetRevision, true, Sequel.None, MessageKind.Revision);
        Row(MessageKind.GetBatteryCap, true, Sequel.None, MessageKind.BatteryCapabilities);
        Row(MessageKind.GetBatteryStatus, true, Sequel.None, MessageKind.BatteryStatus);
        Row(MessageKind.GetManufacturerInfo, true, Sequel.None, MessageKind.ManufacturerInfo);
        Row(MessageKind.SecurityRequest, true, Sequel.None, MessageKind.SecurityResponse);
        Row(MessageKind.FirmwareUpdateRequest, true, Sequel.None, MessageKind.FirmwareUpdateResponse);
    }

    /// <summary>What a message begins; null when it owes nothing, or was not shown.</summary>
    public static AnswerRow? Of(in Delivery delivery)
    {
        // Attention needs no answer (command 6); an R2.0 port may leave a VDM unanswered (from memory).
        if (delivery.Kind == MessageKind.VendorDefined)
        {
            bool isCommand = delivery.Detail != Delivery.NoDetail && delivery.VdmType == VdmCommandType.Request
                && (delivery.Detail & 0x1F) != 6;
            return isCommand ? Vendor : null;
        }

        foreach (AnswerRow row in Detailed)
        {
            if (row.Detail == delivery.Detail && row.Request == delivery.Kind)
            {
                return row;
            }
        }

        return delivery.IsLaterChunk ? null : Plain[(int)delivery.Kind.Class, delivery.Kind.Code & 0x1F];
    }

    /// <summary>Whether a message makes sense as an answer only.</summary>
    public static bool IsOnlyAnswer(in Delivery delivery) => !delivery.IsLaterChunk
        && (OnlyAnswers.Contains(delivery.Kind)
            || (delivery.Kind == MessageKind.ExtendedControl && delivery.Detail == (int)ExtendedControlType.EprKeepAliveAck)
            || (delivery.Kind == MessageKind.EPRMode
                && delivery.Detail is >= (int)EprModeAction.EnterAcknowledged and <= (int)EprModeAction.EnterFailed));

    private static void Row(MessageKind request, bool isOwed, Sequel sequel, params MessageKind[] answers) =>
        Plain[(int)request.Class, request.Code] =
            new AnswerRow(request.Name, request, Delivery.NoDetail, answers, IsOwed: isOwed, Sequel: sequel);
}
