using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Following.Contracts;

/// <summary>What was measured under a contract once VBUS had settled. What was not measured is null.</summary>
/// <param name="Samples">Measurements of VBUS.</param>
/// <param name="Least">The smallest voltage.</param>
/// <param name="Mean">The mean of the voltages, rounded to the millivolt.</param>
/// <param name="Most">The largest voltage.</param>
/// <param name="MostCurrent">The largest current.</param>
public sealed record MeasuredPower(long Samples, Voltage Least, Voltage Mean, Voltage Most, Current? MostCurrent)
{
    /// <summary>Where VBUS has to stay under the contract; null where it is not stated.</summary>
    public VoltageBand? Allowed { get; init; }

    /// <summary>Adds samples up.</summary>
    internal sealed class Sum
    {
        private long _total;
        private int _least = int.MaxValue;
        private int _most = int.MinValue;
        private int? _mostAmperes;

        public long Samples { get; private set; }

        public void Add(int millivolts, int? milliamperes)
        {
            Samples++;
            _total += millivolts;
            _least = Math.Min(_least, millivolts);
            _most = Math.Max(_most, millivolts);
            if (milliamperes is { } amperes)
            {
                _mostAmperes = Math.Max(_mostAmperes ?? amperes, amperes);
            }
        }

        public Sum And(Sum other) => new()
        {
            _total = _total + other._total,
            _least = Math.Min(_least, other._least),
            _most = Math.Max(_most, other._most),
            _mostAmperes = _mostAmperes is { } one && other._mostAmperes is { } two ? Math.Max(one, two) : _mostAmperes ?? other._mostAmperes,
            Samples = Samples + other.Samples,
        };

        public MeasuredPower ToPower() => new(
            Samples, Voltage.FromMillivolts(_least), Voltage.FromMillivolts((int)Math.Round((decimal)_total / Samples)),
            Voltage.FromMillivolts(_most), _mostAmperes is { } amperes ? Current.FromMilliamperes(amperes) : null);
    }
}
