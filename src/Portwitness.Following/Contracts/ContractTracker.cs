using System.Buffers.Binary;
using System.Collections.Immutable;
using Portwitness.Following.States;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Messages;
using Portwitness.PowerDelivery.PowerData;

namespace Portwitness.Following.Contracts;

/// <summary>
/// Follows requests from the sink's message to PS_RDY (R3.2v1.1, 6.4.2). A request is read against the capabilities in
/// force when it was sent.
/// </summary>
public sealed class ContractTracker(ConversationTrack track)
{
    /// <summary>Contracts that are listed; later ones are counted.</summary>
    public const int Most = 1000;

    private const int None = -1;

    private readonly List<ContractAttempt> _contracts = [];
    private readonly ListsInForce _lists = new(track);
    private ContractAttempt? _open;
    private int _granted = None;
    private int _openMessageId;

    /// <summary>Requests in order.</summary>
    public IReadOnlyList<ContractAttempt> Contracts => _contracts;

    /// <summary>Contracts beyond <see cref="Most"/>.</summary>
    public long Unlisted { get; private set; }

    /// <summary>The list that requests are read against: that of the mode in force; empty before there is one.</summary>
    public ImmutableArray<OfferedObject> InForce => _lists.Objects;

    /// <summary>Whether EPR mode was entered and not left since (6.4.10).</summary>
    public bool IsEprMode => EprMode == true;

    /// <summary>Whether EPR mode is entered; null while the capture does not tell the mode.</summary>
    public bool? EprMode => track.Mode is { } mode ? mode == PowerMode.Epr : null;

    /// <summary>Index of the latest request that led to <see cref="Granted"/>; 0 without one.</summary>
    public long GrantedIndex { get; private set; }

    /// <summary>The request that is not settled yet; null when there is none.</summary>
    public ContractAttempt? Open => _open;

    /// <summary>The explicit contract in force; null without one, and when it is one of those that are not listed.</summary>
    public ContractAttempt? Granted => _granted == None ? null : _contracts[_granted];

    /// <summary>Whether there is such a contract.</summary>
    public bool IsGranted => _granted != None;

    /// <summary>Position of the object that <see cref="Granted"/> is about, counted from 1; 0 when there is none, or it was not shown.</summary>
    public int GrantedPosition => _granted == None ? 0 : _contracts[_granted].ObjectPosition ?? 0;

    /// <summary>Index of the request that is not settled yet; null when there is none.</summary>
    public long? OpenIndex => _open?.MessageIndex;

    /// <summary>Whether the request that is not settled yet was accepted.</summary>
    public bool IsAccepted => _open?.Outcome == ContractOutcome.Accepted;

    /// <summary>Whether a contract was reached.</summary>
    public bool AnyReady { get; private set; }

    /// <summary>A source's list was received.</summary>
    public void OnCapabilities(MessageKind kind, ImmutableArray<OfferedObject> objects) => _lists.OnCapabilities(kind, objects);

    /// <summary>Any other message on SOP.</summary>
    public void OnMessage(in MessageView view, ReadOnlySpan<byte> known, long index, long timeUs)
    {
        MessageKind kind = view.Header.Kind;
        if (kind == MessageKind.Request || kind == MessageKind.EPRRequest)
        {
            OnRequest(view, known, index, timeUs);
        }
        else if (_open is { } open && view.Header.SourceOrCablePlug)
        {
            OnAnswer(open, kind, timeUs);
        }
        else if (kind == MessageKind.SoftReset)
        {
            OnReset();
        }
    }

    /// <summary>A hard reset ends what is open and what is in force.</summary>
    public void OnHardReset(long timeUs)
    {
        OnReset();
        EndGranted(timeUs, ContractEnd.HardReset);
    }

    /// <summary>The port was detached: nothing is in force any more.</summary>
    public void OnDetach(long timeUs)
    {
        OnReset();
        _lists.OnDetach();
        EndGranted(timeUs, ContractEnd.Detached);
    }

    /// <summary>The capture has ended.</summary>
    public void Complete()
    {
        if (_open is { } open)
        {
            Close(open);
        }
    }

    /// <summary>What was measured under the contract that a request led to; it is among the last that are listed, or not listed.</summary>
    public void OnMeasured(long messageIndex, MeasuredPower measured, MeasuredSlices overTime)
    {
        int at = _contracts.FindLastIndex(contract => contract.MessageIndex == messageIndex);
        if (at >= 0)
        {
            _contracts[at] = _contracts[at] with { Measured = measured, MeasuredOverTime = overTime };
        }
    }

    private void OnRequest(in MessageView view, ReadOnlySpan<byte> known, long index, long timeUs)
    {
        if (_open is { } open)
        {
            // An unanswered request with the same MessageID is a retry of it (6.7.1.1).
            if (open.Outcome == ContractOutcome.Unanswered && view.Header.MessageId == _openMessageId)
            {
                return;
            }

            Close(open);
        }

        _openMessageId = view.Header.MessageId;
        ContractAttempt request = new() { MessageIndex = index, RequestedUs = timeUs, InEprMode = IsEprMode };
        if (view.CompleteObjects > 0)
        {
            uint shown = known.IsEmpty ? uint.MaxValue : BinaryPrimitives.ReadUInt32LittleEndian(known[2..]);
            RequestReading asked = RequestReading.Of(view.ObjectAt(0), shown, InForce);
            request = request with
            {
                ObjectPosition = asked.ObjectPosition,
                Voltage = asked.Voltage,
                Current = asked.Current,
                Power = asked.Power,
                CapabilityMismatch = asked.CapabilityMismatch,
            };
        }

        _open = request;
    }

    private void OnAnswer(in ContractAttempt open, MessageKind kind, long timeUs)
    {
        if (kind == MessageKind.Accept && open.Outcome == ContractOutcome.Unanswered)
        {
            _open = open with { Outcome = ContractOutcome.Accepted, AcceptedUs = timeUs };
        }
        else if (kind == MessageKind.PSRDY && (open.Outcome == ContractOutcome.Accepted || track.States.Contract == open.MessageIndex))
        {
            AnyReady = true;
            Grant(open with { Outcome = ContractOutcome.Ready, ReadyUs = timeUs });
        }
        else if (kind == MessageKind.Reject)
        {
            Close(open with { Outcome = ContractOutcome.Rejected });
        }
        else if (kind == MessageKind.Wait)
        {
            Close(open with { Outcome = ContractOutcome.Wait });
        }
        else if (kind == MessageKind.SoftReset)
        {
            Close(open with { Outcome = ContractOutcome.Reset });
        }
    }

    // The same request once more renews what is in force; PPS asks for that every ten seconds.
    private void Grant(in ContractAttempt contract)
    {
        GrantedIndex = contract.MessageIndex;
        if (_granted != None && SameTerms(_contracts[_granted], contract))
        {
            _open = null;
            _contracts[_granted] = _contracts[_granted] with { Renewals = _contracts[_granted].Renewals + 1 };
            return;
        }

        EndGranted(contract.ReadyUs!.Value, ContractEnd.Replaced);
        GrantedIndex = contract.MessageIndex;
        Close(contract);
        _granted = Unlisted == 0 ? _contracts.Count - 1 : None;
    }

    private void EndGranted(long timeUs, ContractEnd end)
    {
        if (_granted != None)
        {
            _contracts[_granted] = _contracts[_granted] with { EndedUs = timeUs, End = end };
            (_granted, GrantedIndex) = (None, 0);
        }
    }

    // A soft reset ends an open request, not a contract.
    private void OnReset()
    {
        if (_open is { } open)
        {
            Close(open with { Outcome = ContractOutcome.Reset });
        }
    }

    private static bool SameTerms(in ContractAttempt left, in ContractAttempt right) =>
        (left.ObjectPosition, left.Voltage, left.Current, left.Power)
            == (right.ObjectPosition, right.Voltage, right.Current, right.Power)
        && left.ObjectPosition is not null;

    private void Close(in ContractAttempt contract)
    {
        _open = null;
        if (_contracts.Count < Most)
        {
            _contracts.Add(contract);
        }
        else
        {
            Unlisted++;
        }
    }
}
