using Portwitness.Captures.Tables;

namespace Portwitness.Captures.PowerLogs;

/// <summary>
/// Rows whose times have two parts, which may be hours and minutes or minutes and seconds, held until something tells which: a
/// later row with three parts or a fraction, midnight, or the meter's own count of charge or energy.
/// </summary>
internal sealed class OpenRows
{
    /// <summary>So many are held: 18 weeks of one a minute.</summary>
    public const int Most = 180_000;

    private const long HourUs = 3_600_000_000;
    private const long MicroampereHour = 3_600_000_000;
    private const long MicrowattHour = 3_600_000_000_000_000;

    // What the meter counts is sampled more often than it is written down. The two readings are a factor of 60 apart.
    private const int Near = 2;

    private readonly List<PowerLogRow> _rows = [];
    private long? _firstCount;
    private long _lastCount;

    /// <summary>The rows in order, their times taken to be minutes and seconds.</summary>
    public IReadOnlyList<PowerLogRow> Rows => _rows;

    /// <summary>Holds a row, with what the meter had counted by then in µAh or µWh; null when it does not say.</summary>
    public void Add(in PowerLogRow row, long? count)
    {
        _rows.Add(row);
        _firstCount ??= count;
        _lastCount = count ?? _lastCount;
    }

    /// <summary>Whether the row that follows is behind midnight: hours end at 23 and begin at 0, minutes do not.</summary>
    public bool PassesMidnight(long nextUs) =>
        _rows.Count > 0 && InHours(_rows[^1].TimeUs) is >= 23 * HourUs and < 24 * HourUs && InHours(nextUs) is >= 0 and < HourUs;

    /// <summary>What the parts are by what the meter counted.</summary>
    /// <param name="ofEnergy">Whether it counted energy, or charge.</param>
    public ClockParts ByCount(bool ofEnergy)
    {
        Int128 twice = 0;
        for (int row = 1; row < _rows.Count; row++)
        {
            (PowerLogRow from, PowerLogRow to) = (_rows[row - 1], _rows[row]);
            twice += (Int128)Math.Max(0, to.TimeUs - from.TimeUs) * (Amount(from, ofEnergy) + Amount(to, ofEnergy));
        }

        Int128 added = Int128.Abs(twice) / 2 / (ofEnergy ? MicrowattHour : MicroampereHour);
        Int128 counted = _firstCount is { } first ? Int128.Abs((Int128)_lastCount - first) : 0;
        return added == 0 || counted == 0 ? ClockParts.Unstated
            : IsNear(counted, added) ? ClockParts.MinutesAndSeconds
            : IsNear(counted, added * 60) ? ClockParts.HoursAndMinutes
            : ClockParts.Unstated;
    }

    private static long InHours(long us) => us * 60;

    private static bool IsNear(Int128 one, Int128 other) => one <= other * Near && other <= one * Near;

    private static Int128 Amount(in PowerLogRow row, bool ofEnergy) =>
        ofEnergy ? (Int128)row.Microvolts * row.Microamperes : row.Microamperes;
}
