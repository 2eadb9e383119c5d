using System.Buffers.Binary;
using System.Collections.Immutable;
using Portwitness.PowerDelivery.Messages;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.PowerDelivery.Requests;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Analysis.Profile;

/// <summary>
/// Follows requests from the sink's message to PS_RDY (R3.2v1.1, 6.4.2). A request is read against the capabilities in
/// force when it was sent.
/// </summary>
internal sealed class ContractTracker
{
    /// <summary>Contracts that are listed; later ones are counted.</summary>
    public const int Most = 1000;

    // Where the shapes of a request carry what is asked for (Tables 6.23 to 6.26).
    private const uint OperatingBits = 0x000FFC00;
    private const uint AdjustableVoltageBits = 0x001FFE00;
    private const uint AdjustableCurrentBits = 0x0000007F;

    private readonly List<ContractAttempt> _contracts = [];
    private ImmutableArray<OfferedObject> _inForce = [];
    private ContractAttempt? _open;
    private int _openMessageId;

    /// <summary>Requests in order.</summary>
    public IReadOnlyList<ContractAttempt> Contracts => _contracts;

    /// <summary>Contracts beyond <see cref="Most"/>.</summary>
    public long Unlisted { get; private set; }

    /// <summary>Whether a contract was reached.</summary>
    public bool AnyReady { get; private set; }

    /// <summary>A source's list was received.</summary>
    public void OnCapabilities(ImmutableArray<OfferedObject> objects) => _inForce = objects;

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

    /// <summary>A reset of any kind ends what is open.</summary>
    public void OnReset()
    {
        if (_open is { } open)
        {
            Close(open with { Outcome = ContractOutcome.Reset });
        }
    }

    /// <summary>The port was detached: nothing is in force any more.</summary>
    public void OnDetach()
    {
        OnReset();
        _inForce = [];
    }

    /// <summary>The capture has ended.</summary>
    public void Complete()
    {
        if (_open is { } open)
        {
            Close(open);
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
        ContractAttempt attempt = new() { MessageIndex = index, RequestedUs = timeUs };
        _open = view.CompleteObjects == 0
            ? attempt
            : Describe(
                attempt, view.ObjectAt(0),
                known.IsEmpty ? uint.MaxValue : BinaryPrimitives.ReadUInt32LittleEndian(known[2..]));
    }

    private void OnAnswer(ContractAttempt open, MessageKind kind, long timeUs)
    {
        if (kind == MessageKind.Accept && open.Outcome == ContractOutcome.Unanswered)
        {
            _open = open with { Outcome = ContractOutcome.Accepted, AcceptedUs = timeUs };
        }
        else if (kind == MessageKind.PSRDY && open.Outcome == ContractOutcome.Accepted)
        {
            AnyReady = true;
            Close(open with { Outcome = ContractOutcome.Ready, ReadyUs = timeUs });
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

    private void Close(ContractAttempt contract)
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

    private ContractAttempt Describe(ContractAttempt attempt, uint raw, uint known)
    {
        RequestObject request = new(raw & known);
        if (!Shows(known, RequestObject.ObjectPositionBeforeR31Field.Mask))
        {
            return attempt;
        }

        int position = request.ObjectPosition;
        attempt = attempt with
        {
            ObjectPosition = position,
            CapabilityMismatch = Shows(known, RequestObject.CapabilityMismatchField.Mask) ? request.CapabilityMismatch : null,
        };
        if (position < 1 || position > _inForce.Length || !_inForce[position - 1].KindIsKnown)
        {
            return attempt;
        }

        OfferedObject selected = _inForce[position - 1];
        RequestTerms terms = RequestTerms.Read(request, selected.AsSource());
        (uint voltageBits, uint amountBits) = terms.Shape is RequestShape.Pps or RequestShape.Avs
            ? (AdjustableVoltageBits, AdjustableCurrentBits)
            : (0u, OperatingBits);
        Voltage? voltage = selected.Kind == PowerObjectKind.Fixed ? selected.HighestVoltage()
            : Shows(known, voltageBits) ? terms.Voltage : null;
        Current? current = Shows(known, amountBits) ? terms.Current : null;
        Power? power = Shows(known, amountBits) ? terms.Power : null;
        return attempt with
        {
            Voltage = voltage,
            Current = current,
            Power = power ?? (voltage is { } volts && current is { } amperes ? volts * amperes : null),
        };
    }

    private static bool Shows(uint known, uint bits) => (known & bits) == bits;
}
