using System.Buffers.Binary;
using Portwitness.Captures;
using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Headers;

namespace Portwitness.Synthesis;

/// <summary>A source, a sink and a cable that do what the steps say; it keeps what later steps depend on.</summary>
internal sealed partial class Dialogue
{
    private readonly SynthesisScript _script;
    private readonly ICaptureSink _records;
    private readonly Transmitter _line;
    private CapabilitySet? _offered;
    private bool _eprMode;
    private bool _cableAnswered;

    // Gap before the next message, where it is not the usual one.
    private long? _nextGapUs;
    private long _unansweredCapabilitiesUs = -1;

    public Dialogue(SynthesisScript script, ICaptureSink records)
    {
        _script = script;
        _records = records;
        _line = new Transmitter(records, script.RevisionCode, new Jitter(script.JitterUs, script.Seed));
        records.OnHeader(script.Header);
    }

    /// <summary>Where the capture has come to, in microseconds.</summary>
    public long NowUs => _line.NowUs;

    /// <summary>Takes one step.</summary>
    /// <exception cref="ScriptFault">It cannot be taken here.</exception>
    public void Play(SingleStep step)
    {
        _line.Mishap = step.Mishap;
        step.Play(this);
        if (_line.Mishap is { } unused)
        {
            _line.Mishap = null;
            throw ScriptFault.Impossible($"nothing in this step can suffer {unused.Text}");
        }
    }

    /// <summary>Lets time go by.</summary>
    public void Pause(long us) => _line.Pause(us);

    /// <summary>Goes on to a time, unless it is past.</summary>
    public void GoTo(long us) => _line.GoTo(us);

    /// <summary>The answer never comes: whoever waits for it gives up.</summary>
    public void NoAnswer() => Pause(Gaps.SenderResponse);

    /// <summary>Attaches something to a port; to the captured one, VBUS follows.</summary>
    public void Attach(string? port)
    {
        Happen(CaptureEvents.Attach, port ?? _script.Header.Port);
        if (IsOwn(port))
        {
            Forget();
            Pause(Gaps.SrcTurnOn);
            Happen(CaptureEvents.VbusOn);
            _nextGapUs = Gaps.FirstSourceCap;
        }
    }

    /// <summary>Detaches what was attached to a port.</summary>
    public void Detach(string? port)
    {
        Happen(CaptureEvents.Detach, port ?? _script.Header.Port);
        if (IsOwn(port))
        {
            Forget();
        }
    }

    /// <summary>Records an event.</summary>
    public void Happen(string name, string? port = null, string? value = null) =>
        _records.OnEvent(new EventRecord(NowUs, 0, name, port, value));

    /// <summary>Records a measurement.</summary>
    public void Measure(int? millivolts, int? milliamperes) =>
        _records.OnMeasurement(new MeasurementRecord(NowUs, 0, millivolts, milliamperes));

    /// <summary>Asks the cable, which answers or not.</summary>
    public void DiscoverCable(CableMarker? other)
    {
        CableMarker cable = other ?? _script.Cable;
        byte[] request = BytesOf(CableMarker.Request(_line.RevisionCode));
        if (!cable.Answers)
        {
            _line.Send(SopKind.SopPrime, Sender.Source, MessageKind.VendorDefined, request, NextGap(), heard: false);
            return;
        }

        _line.Send(SopKind.SopPrime, Sender.Source, MessageKind.VendorDefined, request, NextGap());
        _line.Send(
            SopKind.SopPrime, Sender.CablePlug, MessageKind.VendorDefined,
            BytesOf(cable.Answer(_line.RevisionCode)), Gaps.VdmReceiverResponse);
        _cableAnswered = true;
    }

    /// <summary>Sends (EPR_)Source_Capabilities, as the mode has it.</summary>
    public void Advertise(CapabilitySet set)
    {
        if (_unansweredCapabilitiesUs >= 0 && _line.Mishap?.Kind != MishapKind.Gap)
        {
            _line.GoTo(_unansweredCapabilitiesUs + Gaps.TypeCSendSourceCap - Gaps.ReceiverResponse);
        }

        _offered = set;
        if (_eprMode)
        {
            SendBlock(Sender.Source, MessageKind.EPRSourceCapabilities, BytesOf([.. set.Epr]));
        }
        else
        {
            Say(Sender.Source, MessageKind.SourceCapabilities, [.. set.Spr]);
        }

        _unansweredCapabilitiesUs = _contract is null ? NowUs : -1;
    }

    /// <summary>Asks for the source's capabilities, and gives them when they are named.</summary>
    public void GetSourceCap(CapabilitySet? answer)
    {
        Say(Sender.Sink, MessageKind.GetSourceCap);
        if (answer is not null)
        {
            Say(Sender.Source, MessageKind.SourceCapabilities, [.. answer.Spr]);
            _offered = _eprMode ? _offered : answer;
        }
    }

    /// <summary>Asks for the EPR list; in SPR mode it is not what requests refer to (R3.2v1.1, 6.5.15.1).</summary>
    public void GetEprSourceCap(CapabilitySet answer)
    {
        ExtendedControl(Sender.Sink, 1);
        SendBlock(Sender.Source, MessageKind.EPRSourceCapabilities, BytesOf([.. answer.Epr]));
        _offered = _eprMode ? answer : _offered;
    }

    /// <summary>Asks for the sink's capabilities.</summary>
    public void GetSinkCap(CapabilitySet answer)
    {
        Say(Sender.Source, MessageKind.GetSinkCap);
        Say(Sender.Sink, MessageKind.SinkCapabilities, [.. answer.Spr]);
    }

    /// <summary>Sends one message on SOP.</summary>
    public void Say(Sender sender, MessageKind kind, params ReadOnlySpan<uint> objects)
    {
        // Counting begins anew with the Soft_Reset itself (R3.2v1.1, 6.7.1).
        if (kind == MessageKind.SoftReset)
        {
            _line.ResetMessageIds(SopKind.Sop);
        }

        _line.Send(SopKind.Sop, sender, kind, BytesOf(objects), NextGap());
    }

    /// <summary>Sends bytes as they stand.</summary>
    public void SayRaw(SopKind sop, Sender sender, byte[] message) => _line.SendRaw(sop, sender, message, NextGap());

    private bool IsOwn(string? port) => port is null || port == _script.Header.Port;

    private void Forget()
    {
        _line.ResetMessageIds();
        (_offered, _contract, _wanted) = (null, null, null);
        (_eprMode, _cableAnswered) = (false, false);
        _unansweredCapabilitiesUs = -1;
    }

    private long NextGap()
    {
        long gap = _nextGapUs ?? Gaps.ReceiverResponse;
        _nextGapUs = null;
        return gap;
    }

    private static byte[] BytesOf(ReadOnlySpan<uint> objects)
    {
        byte[] bytes = new byte[objects.Length * 4];
        for (int i = 0; i < objects.Length; i++)
        {
            BinaryPrimitives.WriteUInt32LittleEndian(bytes.AsSpan(4 * i), objects[i]);
        }

        return bytes;
    }
}
