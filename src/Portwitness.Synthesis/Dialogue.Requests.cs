using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.PowerDelivery.Requests;

namespace Portwitness.Synthesis;

// Requests, their answers, and the change of power.
internal sealed partial class Dialogue
{
    private Wanted? _wanted;
    private Wanted? _contract;
    private long _acceptedUs = -1;
    private long _sinkWaitsUntilUs;

    /// <summary>What a request asks for.</summary>
    /// <param name="Position">The object's position.</param>
    /// <param name="Kind">Its kind.</param>
    /// <param name="Millivolts">The voltage asked for; 0 where the object fixes it.</param>
    private sealed record Wanted(int Position, PowerObjectKind Kind, int Millivolts);

    /// <summary>Sends Request, or EPR_Request with a copy of the object in EPR mode (R3.2v1.1, 6.4.9).</summary>
    public void Request(RequestWords request)
    {
        if (_line.Mishap?.Kind != MishapKind.Gap)
        {
            _line.GoTo(_sinkWaitsUntilUs);
        }

        _unansweredCapabilitiesUs = -1;
        if (request.Raw is { } raw && !_eprMode)
        {
            _wanted = null;
            Say(Sender.Sink, MessageKind.Request, raw);
            return;
        }

        int position = request.Raw is { } word ? new RequestObject(word).ObjectPosition : request.Position;
        SourcePowerObject selected = new(ObjectAt(position));
        RequestObject encoded = new(request.Raw ?? request.Encode(selected));
        _wanted = new Wanted(
            position, selected.Kind, RequestTerms.Read(encoded, selected).Voltage?.Millivolts ?? 0);
        if (_eprMode)
        {
            RequestObject inEprMode = request.Raw is null ? encoded.With(RequestObject.EprCapableField, true) : encoded;
            Say(Sender.Sink, MessageKind.EPRRequest, inEprMode.Raw, selected.Raw);
        }
        else
        {
            Say(Sender.Sink, MessageKind.Request, encoded.Raw);
        }
    }

    /// <summary>The source accepts.</summary>
    public void Accept()
    {
        Say(Sender.Source, MessageKind.Accept);
        _acceptedUs = NowUs;
    }

    /// <summary>The source puts the sink off, which then waits before it asks again (tSinkRequest).</summary>
    public void Wait()
    {
        Say(Sender.Source, MessageKind.Wait);
        _sinkWaitsUntilUs = NowUs + Gaps.SinkRequest;
    }

    /// <summary>PS_RDY, a time after Accept was acknowledged.</summary>
    public void Ready(long? afterUs)
    {
        long gap = afterUs ?? TransitionUs();
        if (_acceptedUs >= 0)
        {
            gap = Math.Max(_acceptedUs + gap - NowUs, Gaps.InterFrameGap);
        }

        _nextGapUs = gap;
        Say(Sender.Source, MessageKind.PSRDY);
        (_contract, _wanted, _acceptedUs) = (_wanted ?? _contract, null, -1);
    }

    /// <summary>Request, Accept, PS_RDY.</summary>
    public void Contract(RequestWords request)
    {
        Request(request);
        Accept();
        Ready(null);
    }

    private uint ObjectAt(int position)
    {
        if (_offered is null)
        {
            throw ScriptFault.Impossible("nothing has been advertised since the attach or reset before; advertise a list first");
        }

        IReadOnlyList<uint> objects = _eprMode ? _offered.Epr : _offered.Spr;
        if (position >= 1 && position <= objects.Count && (objects[position - 1] != 0 || !_eprMode))
        {
            return objects[position - 1];
        }

        string hint = position >= MessageLimits.FirstEprPosition && !_eprMode ? "; enter EPR mode first" : "";
        throw ScriptFault.Impossible(
            $"there is no object {position} among the {objects.Count} advertised{hint}; a request that breaks this is written as a word, 0x...");
    }

    // tSrcTransReq, or within one adjustable object the times of its step (R3.2v1.1, Tables 6.68 and 7.23).
    private long TransitionUs()
    {
        bool sameObject = _wanted is not null && _contract is not null && _wanted.Position == _contract.Position
            && _wanted.Kind == _contract.Kind;
        int step = sameObject ? Math.Abs(_wanted!.Millivolts - _contract!.Millivolts) : 0;
        return _wanted?.Kind switch
        {
            PowerObjectKind.Pps when sameObject => step <= 500 ? Gaps.PpsSrcTransSmall : Gaps.PpsSrcTransLarge,
            PowerObjectKind.SprAvs or PowerObjectKind.EprAvs =>
                sameObject && step <= 1000 ? Gaps.AvsSrcTransSmall : Gaps.AvsSrcTransLarge,
            _ => _eprMode ? Gaps.SrcTransReqEpr : Gaps.SrcTransReqSpr,
        };
    }
}
