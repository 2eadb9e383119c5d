using Portwitness.Captures;
using Portwitness.Captures.PowerLogs;

namespace Portwitness.Product.Energy;

/// <summary>
/// Charge and energy of rows, exactly. Between two rows volts and amps are each taken to run in a straight line, so charge is the
/// trapezoid of amps, and energy the integral of the product of both lines, dt/6·(2·V0·I0 + V0·I1 + V1·I0 + 2·V1·I1). Both rest on
/// the same assumption that way; the trapezoid of V·I would give too much where one falls while the other rises, as at a load step.
/// </summary>
/// <remarks>
/// Integers without rounding: sums of µA·µs twice, µV·µs twice and µV·µA·µs six times. A step of an hour at 1000 V and 1000 A adds
/// 2.2·10^28, and a log has at most 10^8 rows, so 128 bits hold them. Only the current's amount over a change of its sign is rounded, up
/// to the next half µA·µs. Times are trusted to the microsecond.
/// </remarks>
internal struct EnergySums
{
    // 1 µAh is 3.6·10^9 µA·µs, 1 µWh is 3.6·10^15 µV·µA·µs.
    private const long MicroampereHour = 3_600_000_000;
    private const long MicrowattHour = 3_600_000_000_000_000;
    private const int Millionths = 1_000_000;

    private Int128 _charge2;
    private Int128 _energy6;
    private Int128 _amounts2;
    private Int128 _volts2;
    private Int128 _work6;

    /// <summary>Time that was added up.</summary>
    public long TimeUs { get; private set; }

    /// <summary>Net charge in µAh, rounded to the nearest.</summary>
    public readonly long MicroampereHours => Rounded(_charge2, 2 * (Int128)MicroampereHour);

    /// <summary>Net energy in µWh, rounded to the nearest.</summary>
    public readonly long MicrowattHours => Rounded(_energy6, 6 * (Int128)MicrowattHour);

    /// <summary>Charge in µAh that ran against the net direction.</summary>
    public readonly long ReverseMicroampereHours => Rounded((_amounts2 - Int128.Abs(_charge2)) / 2, 2 * (Int128)MicroampereHour);

    /// <summary>Mean voltage in µV; 0 without time.</summary>
    public readonly long MeanMicrovolts => TimeUs == 0 ? 0 : Rounded(_volts2, 2 * (Int128)TimeUs);

    /// <summary>Mean of the current's amount in µA; 0 without time.</summary>
    public readonly long MeanMicroamperes => TimeUs == 0 ? 0 : Rounded(_amounts2, 2 * (Int128)TimeUs);

    /// <summary>Adds the time between two rows, the later one last.</summary>
    public void Add(in PowerLogRow from, in PowerLogRow to)
    {
        Int128 time = to.TimeUs - from.TimeUs;
        (Int128 v0, Int128 v1) = (from.Microvolts, to.Microvolts);
        (Int128 i0, Int128 i1) = (from.Microamperes, to.Microamperes);
        TimeUs += (long)time;
        _charge2 += time * (i0 + i1);
        _energy6 += time * Product6(v0, v1, i0, i1);
        bool isTurning = Int128.Sign(i0) * Int128.Sign(i1) < 0;
        (v0, v1, i0, i1) = (Int128.Abs(v0), Int128.Abs(v1), Int128.Abs(i0), Int128.Abs(i1));
        _amounts2 += isTurning ? Turning2(time, i0, i1) : time * (i0 + i1);
        _volts2 += time * (v0 + v1);
        _work6 += time * Product6(v0, v1, i0, i1);
    }

    /// <summary>How far the charge may be off in µAh, when every amp is off to the same side; rounded up.</summary>
    public readonly long ChargeUncertainty(MeasuringAccuracy accuracy) => Clamp(
        Share(Up(_amounts2, 2 * (Int128)MicroampereHour), accuracy.IbusPpm ?? 0)
        + Up((Int128)TimeUs * Micro(accuracy.IbusMilliamperes), MicroampereHour));

    /// <summary>How far the energy may be off in µWh, when every volt and every amp is off to the worse side; rounded up.</summary>
    public readonly long EnergyUncertainty(MeasuringAccuracy accuracy)
    {
        (long ofVolts, long ofAmps) = (accuracy.VbusPpm ?? 0, accuracy.IbusPpm ?? 0);
        (long volts, long amps) = (Micro(accuracy.VbusMillivolts), Micro(accuracy.IbusMilliamperes));
        Int128 work = Up(_work6, 6 * (Int128)MicrowattHour);
        Int128 fromAmps = Up(_volts2 / 2 * amps, MicrowattHour);
        Int128 fromVolts = Up(_amounts2 / 2 * volts, MicrowattHour);
        return Clamp(
            Share(work, ofVolts + ofAmps) + Share(Share(work, ofVolts), ofAmps)
            + fromAmps + Share(fromAmps, ofVolts) + fromVolts + Share(fromVolts, ofAmps)
            + Up((Int128)TimeUs * volts * amps, MicrowattHour));
    }

    /// <summary>What a current would give in a time, in µAh, rounded up.</summary>
    public static long Charge(long microamperes, long timeUs) => Clamp(Up((Int128)microamperes * timeUs, MicroampereHour));

    /// <summary>What a power in µV·µA would give in a time, in µWh, rounded up.</summary>
    public static long Energy(long microvoltsByMicroamperes, long timeUs) => Clamp(Up((Int128)microvoltsByMicroamperes * timeUs, MicrowattHour));

    // A straight line that crosses zero makes two triangles; each has the share of the time that its height has of both heights.
    private static Int128 Turning2(Int128 time, Int128 before, Int128 after) => Up(time * ((before * before) + (after * after)), before + after);

    private static Int128 Product6(Int128 v0, Int128 v1, Int128 i0, Int128 i1) => (v0 * ((2 * i0) + i1)) + (v1 * (i0 + (2 * i1)));

    private static long Micro(int? milli) => (milli ?? 0) * 1000L;

    private static Int128 Share(Int128 of, long ppm) => Up(of * ppm, Millionths);

    private static Int128 Up(Int128 sum, Int128 unit) => (sum + unit - 1) / unit;

    private static long Rounded(Int128 sum, Int128 unit) => Clamp((sum < 0 ? sum - (unit / 2) : sum + (unit / 2)) / unit);

    private static long Clamp(Int128 value) => (long)Int128.Clamp(value, -long.MaxValue, long.MaxValue);
}
