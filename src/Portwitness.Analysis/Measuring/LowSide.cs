using Portwitness.PowerDelivery.Limits;

namespace Portwitness.Analysis.Measuring;

/// <summary>What a voltage that is too low is.</summary>
public enum LowCase
{
    /// <summary>It is not too low, or the load excuses it.</summary>
    None,

    /// <summary>It was there, and collapses: to vSafe0V, or from more to vSafe5V.</summary>
    DropsOut,

    /// <summary>It stays below the static limit whatever the load takes.</summary>
    Stays,

    /// <summary>It is right at small currents and too low at larger ones that the contract covers.</summary>
    SagsUnderLoad,

    /// <summary>For a moment it is below what is valid for a moment.</summary>
    Droops,

    /// <summary>After a load step it stays below the static limit longer than it may.</summary>
    SlowToRecover,
}

/// <summary>Tells apart in which way VBUS is too low, so that one deviation is one finding.</summary>
public static class LowSide
{
    /// <summary>The gravest case of a segment, its samples, and what may excuse it.</summary>
    public static (LowCase Case, Run Run, Doubts Doubts) Of(VbusSegment segment)
    {
        if (segment.Valid.Low.Deepest is { } collapse && Collapses(segment, collapse.Extreme))
        {
            return (segment.Arrived ? LowCase.DropsOut : LowCase.Stays, collapse, OfCollapse(segment, collapse));
        }

        if (segment.Static.Low.Longest is { } stays && stays.Outlasts(VbusLimits.TransientUs))
        {
            return (Sags(segment, stays) ? LowCase.SagsUnderLoad : LowCase.Stays, stays, segment.OfLow(stays));
        }

        if (segment.AfterLoadStep.Longest is { } step && step.Outlasts(VbusLimits.LargeStepTransientUs + segment.Instrument.TimeUncertaintyUs))
        {
            return (LowCase.SlowToRecover, step, segment.OfLow(step));
        }

        if ((segment.Valid.Low.Deepest ?? segment.Moving.Low.Deepest) is { } moment)
        {
            return (LowCase.Droops, moment, segment.OfLow(moment) | segment.OfMoment(moment));
        }

        if (segment.Static.LowAsRead.Longest is { } maybe && maybe.Outlasts(VbusLimits.TransientUs))
        {
            return (LowCase.Stays, maybe, segment.OfLow(maybe) | Doubts.WithinAccuracy);
        }

        if ((segment.Valid.LowAsRead.Deepest ?? segment.Moving.LowAsRead.Deepest) is { } reading)
        {
            return (LowCase.Droops, reading, segment.OfLow(reading) | Doubts.WithinAccuracy);
        }

        if (segment.Static.Low.Longest is { } sparse && sparse.DurationUs > VbusLimits.TransientUs)
        {
            return (LowCase.Stays, sparse, segment.OfLow(sparse) | Doubts.FewSamples);
        }

        if (segment.Lone is { } lone && lone.Millivolts < segment.Terms.Valid.Minimum.Millivolts)
        {
            Run one = new(lone.TimeUs, lone.TimeUs, 1, lone.Millivolts, lone.Milliamperes, lone.Milliamperes);
            return (LowCase.Stays, one, segment.OfLow(one) | Doubts.FewSamples);
        }

        return default;
    }

    // No cable loses that much, so that the place of measuring does not matter.
    private static Doubts OfCollapse(VbusSegment segment, Run run)
    {
        bool cameBack = run.EndUs < segment.LastUs || segment.End == SegmentEnd.Replaced;
        bool attached = cameBack || (segment.RecordsAttach && segment.End == SegmentEnd.CaptureEnded && run.DurationUs > VbusSegment.NearEndUs);
        return (segment.OfLow(run) & ~Doubts.NotAtSource)
            | (attached ? Doubts.None : Doubts.MayBeUnplugged)
            | (run.Samples < 2 ? Doubts.FewSamples : Doubts.None);
    }

    private static bool Collapses(VbusSegment segment, int millivolts) =>
        millivolts <= Electrical.Safe0VMaximum.Millivolts
        || (segment.Terms.Valid.Minimum > VbusLimits.Safe5V.Maximum && millivolts <= VbusLimits.Safe5V.Maximum.Millivolts);

    private static bool Sags(VbusSegment segment, Run run) =>
        segment.MostWithinMilliamperes is { } within && run.LeastMilliamperes is { } least
        && least - segment.Instrument.OfCurrent(least) > within + segment.Instrument.OfCurrent(within);
}
