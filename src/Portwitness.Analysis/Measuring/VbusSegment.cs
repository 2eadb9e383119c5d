using System.Collections.Immutable;
using Portwitness.Following.Contracts;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.PowerData;

namespace Portwitness.Analysis.Measuring;

/// <summary>What ended a segment.</summary>
public enum SegmentEnd
{
    /// <summary>The capture ended.</summary>
    CaptureEnded,

    /// <summary>Another request was accepted.</summary>
    Replaced,

    /// <summary>A hard reset.</summary>
    HardReset,

    /// <summary>The port was detached.</summary>
    Detached,

    /// <summary>From here on the capture does not show what VBUS has to be.</summary>
    Unknown,
}

/// <summary>VBUS moving faster than it may between two samples.</summary>
/// <param name="TimeUs">The second sample.</param>
/// <param name="Millivolts">By how much VBUS moved.</param>
/// <param name="MicrosecondsApart">Within what time.</param>
public readonly record struct Slew(long TimeUs, int Millivolts, long MicrosecondsApart);

/// <summary>
/// What VBUS did under one contract, from Accept to the next, or before the first one; a summary whose size does not depend
/// on the number of samples. It judges nothing.
/// </summary>
public sealed partial class VbusSegment
{
    /// <summary>
    /// GoodCRC of Accept may come so much later than the record of Accept: three retries of 1.1 ms, and the frames (R3.2v1.1,
    /// Tables 6.68 and 6.70, at 270 kbit/s).
    /// </summary>
    public const long GoodCrcUs = 10_000;

    /// <summary>What is seen so shortly before a detach may be the detaching.</summary>
    public const long NearEndUs = 1_000_000;

    /// <summary>Begins a segment.</summary>
    public VbusSegment(VbusTerms terms, VbusTerms? before, Instrument instrument, long startUs, long messageIndex)
    {
        (Terms, Before, Instrument, StartUs, MessageIndex) = (terms, before, instrument, startUs, messageIndex);
        Moving = new Deviation(before is null ? terms.Valid : terms.Valid.And(before.Valid));
        Static = new Deviation(terms.Static);
        Valid = new Deviation(terms.Valid);
        Arrived = terms.Kind is null;
        DeadlineUs = terms.Kind is null ? startUs : startUs + terms.SettleUs(before) + GoodCrcUs + instrument.TimeUncertaintyUs;
    }

    /// <summary>What VBUS has to be.</summary>
    public VbusTerms Terms { get; }

    /// <summary>What it had to be before; null when that is not known.</summary>
    public VbusTerms? Before { get; }

    /// <summary>How it is measured.</summary>
    public Instrument Instrument { get; }

    /// <summary>Accept, or the first capabilities.</summary>
    public long StartUs { get; }

    /// <summary>The request, or the first capabilities.</summary>
    public long MessageIndex { get; }

    /// <summary>VBUS has to have arrived by then, whatever is uncertain about times taken into account.</summary>
    public long DeadlineUs { get; }

    /// <summary>PS_RDY; null until it came.</summary>
    public long? ReadyUs { get; private set; }

    /// <summary>Ports in use.</summary>
    public ImmutableArray<string> InUse { get; init; } = [];

    /// <summary>Editions that the source may follow.</summary>
    public Editions Editions { get; init; } = Editions.All;

    /// <summary>Whether the instrument records when something is attached and detached.</summary>
    public bool RecordsAttach { get; init; }

    /// <summary>Whether messages are missing, so that another contract may have been made.</summary>
    public bool MessagesMissing { get; set; }

    /// <summary>The last sample outside the static limits as read; of a capture that misses messages, what is before is not in doubt.</summary>
    public long LastOutsideUs { get; private set; } = long.MinValue;

    /// <summary>What ended it.</summary>
    public SegmentEnd End { get; private set; }

    /// <summary>
    /// The current surely flowed into the port, more often than out of it, and in a tenth of the samples at least; fewer than three of
    /// them have to be most of all (common practice, no source): single samples are noise. The port took power, so that VBUS was its
    /// partner's, or the meter counts the other way.
    /// </summary>
    public bool CurrentFlowsIn => _into > _outOf && (_into * 2 > _withCurrent || (_into > 2 && _into * 10 >= _withCurrent));

    /// <summary>Outside what is valid before and after, while VBUS may be on its way.</summary>
    public Deviation Moving { get; }

    /// <summary>Outside the static limits, once settled.</summary>
    public Deviation Static { get; }

    /// <summary>Outside what is valid for a moment, once settled.</summary>
    public Deviation Valid { get; }

    /// <summary>Whether VBUS was seen where it has to be.</summary>
    public bool Arrived { get; private set; }

    /// <summary>Outside what is valid between the deadline and the arrival; null when VBUS was in time.</summary>
    public Run? Late { get; private set; }

    /// <summary>Whether VBUS came from below.</summary>
    public bool LateIsLow { get; private set; }

    /// <summary>Outside what is valid after PS_RDY and before the deadline.</summary>
    public RunTracker Early { get; } = new(1);

    /// <summary>The fastest slew beyond the limit.</summary>
    public Slew? TooFast { get; private set; }

    /// <summary>A sample that shows VBUS on its way before it may move.</summary>
    public Sample? MovedEarly { get; private set; }

    /// <summary>
    /// The least VBUS that the contract in force allows, in mV: on the way of either contract; of PPS that down to which the source
    /// may limit its current (vPpsShutdown, R3.2v1.1, Table 7.23). Null before a contract, and where it is not known.
    /// </summary>
    public int? LeastAllowed => Terms.Kind is null ? null
        : Arrived && ReadyUs is not null ? Least(Terms)
        : Before is { } before ? Math.Min(Least(Terms), Least(before)) : null;

    /// <summary>The only sample after everything had settled, when it is outside what is valid.</summary>
    public Sample? Lone { get; private set; }

    /// <summary>Current beyond the contract, uncertainty taken off.</summary>
    public RunTracker Overload { get; } = new(1);

    /// <summary>The largest current among samples within the static limits; null when none was measured.</summary>
    public int? MostWithinMilliamperes { get; private set; }

    /// <summary>The current was measured with the last sample, and the load never took more than it may.</summary>
    public bool LoadIsWithin => _last is { Milliamperes: not null } && !Overload.IsAny;

    /// <summary>Below the static limits after one load step of 60 mA or more, longer than 5 ms, while the load stays (7.1.8).</summary>
    public RunTracker AfterLoadStep { get; } = new(-1);

    /// <summary>The last sample; 0 when there was none.</summary>
    public long LastUs => _last?.TimeUs ?? 0;

    /// <summary>Voltages and currents once settled.</summary>
    public MeasuredPower? Measured => _measured.Whole is { } whole ? whole with { Allowed = Terms.Static } : null;

    /// <summary>The same, slice by slice.</summary>
    public MeasuredSlices MeasuredOverTime => _measured;

    private static int Least(VbusTerms terms) => terms.IsPps
        ? new PpsSourceSupply(terms.Raw).MinimumVoltage.Millivolts * VbusLimits.PpsShutdownPercent / 100
        : terms.Valid.Minimum.Millivolts;
}
