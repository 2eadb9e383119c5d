using System.Collections.Immutable;
using Portwitness.Captures;
using Portwitness.Text;

namespace Portwitness.Synthesis;

/// <summary>
/// Walks through a script without writing, so that a step that cannot be taken, or a script without end, is known before
/// the first byte. Of a repetition it takes two rounds only: what steps change they set, and do not count up, so that the
/// rounds after the second are like it.
/// </summary>
internal sealed class ScriptWalk : ICaptureSink
{
    /// <summary>Most records and steps together. At about 60 bytes a record this is 3 GB.</summary>
    public const long Most = 50_000_000;

    /// <summary>Longest capture: a year.</summary>
    public const long MaxUs = AmountWords.MaxMicroseconds;

    private readonly Dialogue _dialogue;
    private long _extraUs;
    private long _records;
    private long _steps;

    private ScriptWalk(SynthesisScript script) => _dialogue = new Dialogue(script, this);

    private long TimeUs => _dialogue.NowUs + _extraUs;

    /// <summary>The script with its first fault, or with its size.</summary>
    public static SynthesisScript Through(SynthesisScript script)
    {
        ScriptWalk walk = new(script);
        CaptureFault? fault = walk.Walk(script.Steps);
        return script.Walked(fault, walk._records, walk.TimeUs);
    }

    void ICaptureSink.OnHeader(CaptureHeader header)
    {
    }

    void ICaptureSink.OnMessage(in MessageRecord message) => _records++;

    void ICaptureSink.OnSignal(SignalRecord signal) => _records++;

    void ICaptureSink.OnMeasurement(MeasurementRecord measurement) => _records++;

    void ICaptureSink.OnEvent(EventRecord happened) => _records++;

    void ICaptureSink.OnFault(CaptureFault fault)
    {
    }

    private CaptureFault? Walk(ImmutableArray<Step> steps)
    {
        foreach (Step step in steps)
        {
            if ((step is RepeatStep repeat ? Walk(repeat) : Walk((SingleStep)step)) is { } fault)
            {
                return fault;
            }
        }

        return null;
    }

    private CaptureFault? Walk(SingleStep step)
    {
        try
        {
            _steps++;
            _dialogue.Play(step);
            return Size(step);
        }
        catch (ScriptFault fault)
        {
            return new CaptureFault(step.Line, step.Column, fault.Code, fault.Message);
        }
    }

    private CaptureFault? Walk(RepeatStep repeat)
    {
        (long records, long steps, long began) = (0, 0, 0);
        for (int round = 0; round < Math.Min(2, repeat.Times.Count); round++)
        {
            (records, steps, began) = (_records, _steps, TimeUs);
            if (Walk(repeat.Body) is { } fault)
            {
                return fault;
            }

            if (repeat.Times.PeriodUs is { } period)
            {
                if (TimeUs - began > period)
                {
                    return new CaptureFault(
                        repeat.Line, repeat.Column, SynthesisFaultCodes.StepImpossible,
                        $"one round takes {TimeUs - began} us, longer than the {period} us from one to the next");
                }

                _dialogue.GoTo(began - _extraUs + period);
            }
        }

        Int128 more = repeat.Times.Count - 2;
        if (more > 0)
        {
            _records = Add(_records, more * (_records - records));
            _steps = Add(_steps, more * (_steps - steps));
            _extraUs = Add(_extraUs, more * (TimeUs - began));
        }

        return Size(repeat);
    }

    // Sums stay small enough to be added again.
    private static long Add(long sum, Int128 more) => (long)Int128.Min(sum + more, long.MaxValue / 4);

    private CaptureFault? Size(Step step) =>
        _records + _steps > Most
            ? new CaptureFault(
                step.Line, step.Column, SynthesisFaultCodes.TooLong,
                $"with this step the capture passes {Most} records and steps; split it into several scripts")
        : TimeUs > MaxUs
            ? new CaptureFault(
                step.Line, step.Column, SynthesisFaultCodes.TooLong, "with this step the capture becomes longer than a year")
        : null;
}
