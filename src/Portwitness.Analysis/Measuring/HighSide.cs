using Portwitness.PowerDelivery.Limits;

namespace Portwitness.Analysis.Measuring;

/// <summary>What a voltage that is too high is.</summary>
public enum HighCase
{
    /// <summary>It is not too high.</summary>
    None,

    /// <summary>It stays above the static limit.</summary>
    Stays,

    /// <summary>For a moment it is above what is valid for a moment.</summary>
    Overshoots,
}

/// <summary>Tells apart in which way VBUS is too high, so that one deviation is one finding.</summary>
public static class HighSide
{
    /// <summary>The gravest case of a segment, its samples, and what may excuse it.</summary>
    public static (HighCase Case, Run Run, Doubts Doubts) Of(VbusSegment segment)
    {
        Doubts general = segment.General();
        if (segment.Static.High.Longest is { } stays && stays.Outlasts(VbusLimits.TransientUs))
        {
            return (HighCase.Stays, stays, general);
        }

        if ((segment.Valid.High.Deepest ?? segment.Moving.High.Deepest) is { } moment)
        {
            return (HighCase.Overshoots, moment, general | segment.OfMoment(moment));
        }

        if (segment.Static.HighAsRead.Longest is { } maybe && maybe.Outlasts(VbusLimits.TransientUs))
        {
            return (HighCase.Stays, maybe, general | Doubts.WithinAccuracy);
        }

        if ((segment.Valid.HighAsRead.Deepest ?? segment.Moving.HighAsRead.Deepest) is { } reading)
        {
            return (HighCase.Overshoots, reading, general | Doubts.WithinAccuracy);
        }

        if (segment.Static.High.Longest is { } sparse && sparse.DurationUs > VbusLimits.TransientUs)
        {
            return (HighCase.Stays, sparse, general | Doubts.FewSamples);
        }

        return segment.Lone is { } lone && lone.Millivolts > segment.Terms.Valid.Maximum.Millivolts
            ? (HighCase.Stays, new Run(lone.TimeUs, lone.TimeUs, 1, lone.Millivolts, lone.Milliamperes, lone.Milliamperes), general | Doubts.FewSamples)
            : default;
    }
}
