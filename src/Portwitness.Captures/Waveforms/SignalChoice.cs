using System.Globalization;
using Portwitness.Captures.Input;

namespace Portwitness.Captures.Waveforms;

/// <summary>
/// Takes what several recorded signals hold, of which nobody said which one is the CC line: the one with frames is. The two CC lines of a port
/// take turns when the plug is turned, so that of them the other one may go on.
/// </summary>
/// <param name="sink">Receives header and records.</param>
/// <param name="faults">Told which signal was taken.</param>
/// <param name="areOfOnePort">Whether they are the CC lines of one port.</param>
internal sealed class SignalChoice(ICaptureSink sink, FaultLog faults, bool areOfOnePort)
{
    private const int MaxHeld = 100;

    private Candidate? _chosen;
    private bool _headed;
    private long _latestUs = long.MinValue;

    /// <summary>Whether one was taken.</summary>
    public bool IsSettled => _chosen is not null;

    /// <summary>What a signal's records are handed to.</summary>
    public ICaptureSink Add(string name) => new Candidate(this, name);

    // A frame whose CRC is right is one; noise has none.
    private bool Chooses(Candidate candidate, in MessageRecord message)
    {
        if (candidate == _chosen || message.CrcOk != true || (_chosen is not null && !(areOfOnePort && message.TimeUs > _latestUs)))
        {
            return candidate == _chosen;
        }

        string time = message.TimeUs.ToString(CultureInfo.InvariantCulture);
        faults.Report(0, 0, FaultCodes.SignalChosen, _chosen is null ? FaultText.SignalChosen(candidate.Name) : FaultText.SignalTurned(candidate.Name, time));
        bool isFirst = _chosen is null;
        _chosen = candidate;
        candidate.Release(isFirst);
        return true;
    }

    private sealed class Candidate(SignalChoice choice, string name) : ICaptureSink
    {
        private readonly List<Action> _held = [];

        public string Name => name;

        public void OnHeader(CaptureHeader header)
        {
            if (!choice._headed)
            {
                choice._headed = true;
                choice.Header(header);
            }
        }

        public void OnMessage(in MessageRecord message)
        {
            if (choice.Chooses(this, message))
            {
                choice._latestUs = Math.Max(choice._latestUs, message.TimeUs);
                choice.Message(message);
            }
        }

        public void OnSignal(SignalRecord signal) => Hold(() => choice.Hand(signal));

        public void OnBrokenFrame(BrokenFrameRecord frame) => Hold(() => choice.Hand(frame));

        public void OnMeasurement(MeasurementRecord measurement)
        {
        }

        public void OnEvent(EventRecord happened)
        {
        }

        public void OnFault(CaptureFault fault)
        {
        }

        // What another line showed before it was taken was noise, or the power of a cable.
        public void Release(bool isFirst)
        {
            foreach (Action one in isFirst ? _held : [])
            {
                one();
            }

            _held.Clear();
        }

        private void Hold(Action one)
        {
            if (choice._chosen == this)
            {
                one();
            }
            else if (choice._chosen is null && _held.Count < MaxHeld)
            {
                _held.Add(one);
            }
        }
    }

    private void Header(CaptureHeader header) => sink.OnHeader(header);

    private void Message(in MessageRecord message) => sink.OnMessage(message);

    private void Hand(SignalRecord signal) => sink.OnSignal(signal);

    private void Hand(BrokenFrameRecord frame) => sink.OnBrokenFrame(frame);
}
