using Portwitness.Captures;
using Portwitness.Following.Contracts;
using Portwitness.PowerDelivery.Limits;

namespace Portwitness.Analysis.Measuring;

// How samples are taken in.
public sealed partial class VbusSegment
{
    private readonly MeasuredSlices _measured = new();
    private Sample? _last;
    private long _settledSamples;
    private bool _isAfterStep;
    private long _withCurrent;
    private long _into;
    private long _outOf;

    // From here on the static limits hold: everything that moves has come to rest, as late as the standard allows.
    private long SettledFromUs => ReadyUs is { } ready
        ? Math.Max(DeadlineUs, ready + Instrument.TimeUncertaintyUs)
        : long.MaxValue;

    /// <summary>PS_RDY.</summary>
    public void OnReady(long timeUs) => ReadyUs = timeUs;

    /// <summary>Something was attached to another port, or detached from it.</summary>
    public void OnNeighbour() => _measured.Cut();

    /// <summary>Takes the next measurement.</summary>
    public void Add(Sample sample)
    {
        int uncertainty = Instrument.OfVoltage(sample.Millivolts);
        NoteDirection(sample);
        bool excused = IsExcused(sample);
        if (IsOutside(Terms.Static, sample, 0))
        {
            LastOutsideUs = sample.TimeUs;
        }

        // An instrument may average since the sample before: that one has to be past the event too.
        if (_last is { } last && last.TimeUs > SettledFromUs)
        {
            TakeSettled(sample, uncertainty, excused);
        }
        else
        {
            TakeMoving(sample, uncertainty, excused);
        }

        _last = sample;
    }

    /// <summary>Nothing follows.</summary>
    public void Close(SegmentEnd end, long timeUs)
    {
        End = end;
        foreach (Deviation deviation in (Deviation[])[Moving, Static, Valid])
        {
            // VBUS that falls before a reset or a detach may have fallen because of it; too much may have led to a reset.
            if (end is SegmentEnd.Detached or SegmentEnd.HardReset)
            {
                deviation.DropSince(timeUs - NearEndUs, lowOnly: end == SegmentEnd.HardReset);
            }

            deviation.End();
        }

        Overload.End();
        Early.End();
        AfterLoadStep.End();
        if (_settledSamples == 0 && _last is { } last && last.TimeUs > SettledFromUs + NearEndUs
            && end is not (SegmentEnd.Detached or SegmentEnd.HardReset)
            && IsOutside(Terms.Valid, last, Instrument.OfVoltage(last.Millivolts)) && !IsExcused(last))
        {
            Lone = last;
        }
    }

    private void NoteDirection(Sample sample)
    {
        if (sample.Milliamperes is { } amperes)
        {
            int uncertainty = Instrument.OfCurrent(amperes);
            _withCurrent++;
            _into += amperes + uncertainty < 0 ? 1 : 0;
            _outOf += amperes - uncertainty > 0 ? 1 : 0;
        }
    }

    private void TakeSettled(Sample sample, int uncertainty, bool excused)
    {
        _settledSamples++;
        _measured.Add(sample.TimeUs, sample.Millivolts, sample.Milliamperes);
        if (!Arrived && IsPossiblyWithin(Terms.Valid, sample, uncertainty))
        {
            Arrive(sample);
        }

        TakeLoadStep(sample, uncertainty, excused);
        Static.Add(sample, uncertainty, excused);
        Valid.Add(sample, uncertainty, excused);
        if (IsPossiblyWithin(Terms.Static, sample, uncertainty) && sample.Milliamperes is { } within)
        {
            MostWithinMilliamperes = Math.Max(MostWithinMilliamperes ?? within, within);
        }

        if (sample.Load is { } amperes)
        {
            Overload.Add(IsOverload(Terms, sample), sample.TimeUs, amperes, amperes);
        }
    }

    // The step has to show between the last good sample and the first low one, and to be the only one.
    private void TakeLoadStep(Sample sample, int uncertainty, bool excused)
    {
        bool isLow = !excused && sample.Millivolts + uncertainty < Terms.Static.Minimum.Millivolts;
        if (!isLow || _last?.Milliamperes is not { } before || sample.Milliamperes is not { } now)
        {
            _isAfterStep = false;
        }
        else
        {
            int step = now - before;
            int uncertain = Instrument.OfCurrent(now) + Instrument.OfCurrent(before);
            bool wasWithin = IsPossiblyWithin(Terms.Static, _last.Value, uncertainty);
            _isAfterStep = wasWithin ? step - uncertain >= VbusLimits.LargeLoadStep.Milliamperes
                : _isAfterStep && Math.Abs(step) < VbusLimits.LargeLoadStep.Milliamperes;
        }

        AfterLoadStep.Add(_isAfterStep, sample.TimeUs, sample.Millivolts, sample.Milliamperes);
    }

    // What was outside after the deadline and came in after all was late, and is judged as that alone.
    private void Arrive(Sample sample)
    {
        Arrived = true;
        Valid.Low.Add(false, sample.TimeUs, 0, null);
        Valid.High.Add(false, sample.TimeUs, 0, null);
        Late = Valid.Low.Longest ?? Valid.High.Longest;
        LateIsLow = Valid.Low.Longest is not null;
        Static.Clear();
        Valid.Clear();
        AfterLoadStep.Clear();
    }

    private void TakeMoving(Sample sample, int uncertainty, bool excused)
    {
        TakeOnTheWay(sample, uncertainty, excused);
        if (Terms.Kind is null)
        {
            return;
        }

        NoteEarlyMove(sample, uncertainty, excused);
        bool within = IsPossiblyWithin(Terms.Valid, sample, uncertainty);
        Arrived |= within;
        if (_last is not { } last)
        {
            return;
        }

        NoteSlew(sample, last, uncertainty);
        if (ReadyUs is { } ready && last.TimeUs > ready + Instrument.TimeUncertaintyUs)
        {
            Early.Add(!within && !excused, sample.TimeUs, sample.Millivolts, sample.Milliamperes);
        }
    }

    // Where VBUS comes from has to be known; a PPS source may limit the current on the way.
    private void TakeOnTheWay(Sample sample, int uncertainty, bool excused)
    {
        if (Before is not null || Terms.Kind is null)
        {
            Moving.Add(sample, uncertainty, excused || Terms.IsPps || Before is null or { IsPps: true } || IsOverload(Before, sample));
        }
    }

    private void NoteSlew(Sample sample, Sample last, int uncertainty)
    {
        long apart = sample.TimeUs - last.TimeUs;
        if (apart == 0)
        {
            return;
        }

        // A load step may add what is valid for a moment at both ends and, behind a cable, what the cable loses.
        int moved = Math.Abs(sample.Millivolts - last.Millivolts);
        int uncertain = uncertainty + Instrument.OfVoltage(last.Millivolts) + (2 * VbusLimits.SrcValid.Millivolts)
            + (Instrument.Point == MeasuringPoint.Source ? 0 : VbusLimits.CableDrop.Millivolts);
        if (moved - uncertain > VbusLimits.SlewMillivoltsPerUs * (apart + Instrument.TimeUncertaintyUs)
            && (TooFast is not { } fastest || moved * fastest.MicrosecondsApart > fastest.Millivolts * apart))
        {
            TooFast = new Slew(sample.TimeUs, moved, apart);
        }
    }

    private void NoteEarlyMove(Sample sample, int uncertainty, bool excused)
    {
        if (MovedEarly is not null || Before is not { } before || Terms.IsSameObjectAs(before)
            || sample.TimeUs >= StartUs + VbusLimits.SrcTransitionMinimumUs - Instrument.TimeUncertaintyUs)
        {
            return;
        }

        bool up = Terms.Static.Maximum > before.Static.Maximum
            && sample.Millivolts - uncertainty > before.Valid.Maximum.Millivolts;
        bool down = Terms.Static.Minimum < before.Static.Minimum && !before.IsPps
            && !excused && !IsOverload(before, sample)
            && sample.Millivolts + uncertainty < before.Valid.Minimum.Millivolts;
        MovedEarly = up || down ? sample : null;
    }

    private static bool IsPossiblyWithin(VoltageBand band, Sample sample, int uncertainty) =>
        sample.Millivolts + uncertainty >= band.Minimum.Millivolts && sample.Millivolts - uncertainty <= band.Maximum.Millivolts;

    private static bool IsOutside(VoltageBand band, Sample sample, int uncertainty) => !IsPossiblyWithin(band, sample, uncertainty);

    // Below its voltage a source is excused when the load takes more than it may, and a PPS source when it limits the current. A meter
    // that counts the other way shows the load as a negative current, so that its amount counts.
    private bool IsExcused(Sample sample) => IsOverload(Terms, sample) || IsLimiting(sample);

    private bool IsLimiting(Sample sample) => Terms is { IsPps: true, Current: { } asked } && sample.Load is { } amperes
        && (Terms.PowerLimited
            ? sample.Millivolts > 0 && amperes > 0
            : amperes + Instrument.OfCurrent(amperes) >= VbusLimits.PpsCurrentLimitMinimum(asked).Milliamperes);

    private bool IsOverload(VbusTerms terms, Sample sample)
    {
        if (sample.Load is not { } amperes)
        {
            return false;
        }

        int surely = amperes - Instrument.OfCurrent(amperes);
        return terms switch
        {
            { IsPps: true, Current: { } asked } => surely > VbusLimits.PpsCurrentLimitMaximum(asked).Milliamperes,
            { Current: { } asked } => surely > asked.Milliamperes,
            { Power: { } asked } => surely > 0
                && (long)surely * (sample.Millivolts - Instrument.OfVoltage(sample.Millivolts)) > 1000L * asked.Milliwatts,
            _ => false,
        };
    }
}
