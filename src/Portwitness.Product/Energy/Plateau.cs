using Portwitness.Captures.PowerLogs;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Product.Energy;

/// <summary>What the output's voltage does while the load is on and has settled.</summary>
internal sealed class Plateau
{
    /// <summary>Left out behind each time that the load comes on (common practice, no source).</summary>
    private const long SettleUs = 1_000_000;

    /// <summary>A pack may sag so long before it goes off: the 20th part of the time under load (common practice, no source).</summary>
    private const int SagPart = 20;

    private readonly OutsideRun[] _runs = [];
    private EnergySums _sums;
    private PowerLogRow _last;
    private long _onUs = long.MinValue;
    private bool _settled;

    /// <summary>A plateau at a nominal voltage, or at none.</summary>
    /// <param name="nominal">What the output is to have; null when it is not stated: then nothing is beyond.</param>
    /// <param name="meter">What the meter may be off.</param>
    public Plateau(Voltage? nominal, LogMeter meter)
    {
        if (nominal is { } volts)
        {
            Limits = VbusLimits.OfFixed(volts);
            (long low, long high) = (Limits.Value.Minimum.Millivolts * 1000L, Limits.Value.Maximum.Millivolts * 1000L);
            long drop = VbusLimits.CableDrop.Millivolts * 1000L;
            _runs =
            [
                new(high, above: true), new(meter.SurelyAbove(high), above: true),
                new(low, above: false), new(meter.SurelyBelow(low), above: false),
                new(meter.SurelyBelow(low - drop), above: false),
            ];
        }
    }

    /// <summary>Between which the voltage has to stay; null without a nominal voltage.</summary>
    public VoltageBand? Limits { get; }

    /// <summary>Lowest and highest voltage, in µV; null without a settled row.</summary>
    public (long Low, long High)? Extremes { get; private set; }

    /// <summary>Time under load.</summary>
    public long TimeUs => _sums.TimeUs;

    /// <summary>Mean voltage in µV.</summary>
    public long MeanMicrovolts => _sums.MeanMicrovolts;

    /// <summary>Mean amount of the current in µA.</summary>
    public long MeanMicroamperes => _sums.MeanMicroamperes;

    /// <summary>The longest time above the limit by the reading, and by what it is at least.</summary>
    public (Outside? Read, Outside? Sure) Above => _runs.Length == 0 ? default : (_runs[0].Longest, _runs[1].Longest);

    /// <summary>The longest time below the limit by the reading, by what it is at most, and by more than a cable may lose.</summary>
    public (Outside? Read, Outside? Sure, Outside? BeyondCable) Below =>
        _runs.Length == 0 ? default : (_runs[2].Longest, _runs[3].Longest, _runs[4].Longest);

    /// <summary>Takes a row under load.</summary>
    /// <param name="row">The row.</param>
    /// <param name="goesOn">Whether the row before was under load too, without a gap between.</param>
    public void Add(in PowerLogRow row, bool goesOn)
    {
        if (!goesOn)
        {
            Break();
            _onUs = row.TimeUs;
        }

        if (row.TimeUs - _onUs < SettleUs)
        {
            return;
        }

        if (_settled)
        {
            _sums.Add(_last, row);
        }

        (_settled, _last) = (true, row);
        Extremes = Extremes is { } so
            ? (Math.Min(so.Low, row.Microvolts), Math.Max(so.High, row.Microvolts))
            : (row.Microvolts, row.Microvolts);
        foreach (OutsideRun run in _runs)
        {
            run.Add(row);
        }
    }

    /// <summary>Says that the load, or the log, does not go on.</summary>
    public void Break()
    {
        _settled = false;
        Array.ForEach(_runs, static run => run.Break());
    }

    /// <summary>Says that the output went off.</summary>
    public void End()
    {
        _settled = false;
        Array.ForEach(_runs, run => run.End(TimeUs / SagPart));
    }
}
