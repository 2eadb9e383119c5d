using Portwitness.Analysis.Phrases;
using Portwitness.Captures;

namespace Portwitness.Analysis.Measuring;

/// <summary>Where and how exactly a capture measures; what is not stated is taken to be poor, and said so.</summary>
public sealed class Instrument
{
    /// <summary>Taken for VBUS when nothing is stated: 50 mV and 1 %.</summary>
    private static readonly MeasuringAccuracy Poor = new(50, 10_000, 50, 20_000);

    private const int Millionths = 1_000_000;
    private const long PoorResolutionUs = 1_000;

    private readonly MeasuringAccuracy _accuracy;

    /// <summary>What header and user state.</summary>
    public Instrument(MeasuringPoint point, MeasuringAccuracy? accuracy, int? resolutionUs)
    {
        Point = point;
        StatesVoltage = accuracy is { StatesVoltage: true };
        _accuracy = OrPoor(accuracy);
        StatesTime = resolutionUs is not null;
        TimeUncertaintyUs = resolutionUs ?? PoorResolutionUs;
    }

    /// <summary>Where VBUS is measured.</summary>
    public MeasuringPoint Point { get; }

    /// <summary>Whether the voltage's accuracy is stated.</summary>
    public bool StatesVoltage { get; }

    /// <summary>Whether the resolution of times is stated.</summary>
    public bool StatesTime { get; }

    /// <summary>Times may be off by so much; 1 ms when nothing is stated.</summary>
    public long TimeUncertaintyUs { get; }

    /// <summary>A voltage that reads so may be so many mV more or less, rounded up.</summary>
    public int OfVoltage(int millivolts) => Of(millivolts, _accuracy.VbusMillivolts, _accuracy.VbusPpm);

    /// <summary>A current that reads so may be so many mA more or less, rounded up.</summary>
    public int OfCurrent(int milliamperes) => Of(milliamperes, _accuracy.IbusMilliamperes, _accuracy.IbusPpm);

    /// <summary>For example "measured at the source, ±15 mV".</summary>
    public Phrase Text(int millivolts)
    {
        Phrase where = Point switch
        {
            MeasuringPoint.Source => "measured at the source",
            MeasuringPoint.Sink => "measured at the sink",
            MeasuringPoint.Tester => "measured at a tester",
            _ => "measured at a point that is not stated",
        };
        Phrase text = $"{where}, ±{OfVoltage(millivolts)} mV";
        return StatesVoltage ? text : text + " taken, as no accuracy is stated";
    }

    /// <summary>What is stated, and for volts or amps of which nothing is, what is taken then.</summary>
    internal static MeasuringAccuracy OrPoor(MeasuringAccuracy? stated)
    {
        (bool volts, bool amps) = (stated is { StatesVoltage: true }, stated is { StatesCurrent: true });
        return new MeasuringAccuracy(
            volts ? stated!.VbusMillivolts : Poor.VbusMillivolts, volts ? stated!.VbusPpm : Poor.VbusPpm,
            amps ? stated!.IbusMilliamperes : Poor.IbusMilliamperes, amps ? stated!.IbusPpm : Poor.IbusPpm);
    }

    private static int Of(int value, int? offset, int? ppm) =>
        (int)Math.Min(int.MaxValue / 4, (offset ?? 0) + ((Math.Abs((long)value) * (ppm ?? 0)) + Millionths - 1) / Millionths);
}
