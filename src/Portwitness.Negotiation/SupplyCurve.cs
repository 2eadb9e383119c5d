using System.Collections.Immutable;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Negotiation;

/// <summary>A part of a curve with one limit of current.</summary>
/// <param name="From">The lowest voltage of it that can be asked for.</param>
/// <param name="To">The highest.</param>
/// <param name="Limit">The most current from one to the other.</param>
public readonly record struct CurveSegment(Voltage From, Voltage To, Current Limit);

/// <summary>
/// What an adjustable supply gives at each voltage that can be asked for: 20 mV apart for PPS, 100 mV for AVS (R3.2v1.1,
/// Tables 6.25 and 6.26). Empty for other kinds, and for what was not shown.
/// </summary>
public sealed class SupplyCurve
{
    private const int PpsStep = 20;
    private const int AvsStep = 100;

    private SupplyCurve(ImmutableArray<CurveSegment> segments, Voltage step, bool isPowerLimited)
    {
        (Segments, Step, IsPowerLimited) = (segments, step, isPowerLimited);
    }

    /// <summary>The parts from the lowest voltage to the highest.</summary>
    public ImmutableArray<CurveSegment> Segments { get; }

    /// <summary>The step of voltage.</summary>
    public Voltage Step { get; }

    /// <summary>
    /// PPS Power Limited is set: the source may limit to its power, and the curve takes it that it does. It may also give
    /// more (6.4.1.2.4.1.1 says that it may, the note in 10.2 that it will not).
    /// </summary>
    public bool IsPowerLimited { get; }

    /// <summary>The curve of an object.</summary>
    /// <param name="offered">The object.</param>
    /// <param name="power">The source's power, to which a power-limited PPS supply may be limited.</param>
    public static SupplyCurve Of(OfferedObject offered, Power power)
    {
        bool isLimited = offered.Is(PowerObjectKind.Pps) && offered.Knows(PpsSourceSupply.PowerLimitedField)
            && offered.AsSource().AsPps().PowerLimited && power > Power.Zero;
        int step = offered.Kind == PowerObjectKind.Pps ? PpsStep : AvsStep;
        List<CurveSegment> segments = [];
        if (offered.KindIsKnown && offered.Kind is PowerObjectKind.Pps or PowerObjectKind.SprAvs or PowerObjectKind.EprAvs
            && offered.LowestVoltage() is { } low && offered.HighestVoltage() is { } high)
        {
            for (int at = low.Millivolts; at <= high.Millivolts; at += step)
            {
                Voltage voltage = Voltage.FromMillivolts(at);
                if (At(offered, voltage, isLimited ? power : null) is { } limit && limit > Current.Zero)
                {
                    Add(segments, voltage, limit);
                }
            }
        }

        return new SupplyCurve([.. segments], Voltage.FromMillivolts(step), isLimited);
    }

    // Currents are asked for in steps of 50 mA (Tables 6.25 and 6.26).
    private static Current? At(OfferedObject offered, Voltage voltage, Power? power)
    {
        if (offered.MaximumCurrentAt(voltage) is not { } most)
        {
            return null;
        }

        int limit = most.Milliamperes / SinkRequest.AdjustableCurrentStep * SinkRequest.AdjustableCurrentStep;
        return Current.FromMilliamperes(power is { } at ? Math.Min(limit, OfferedObjectReading.Within(at, voltage)) : limit);
    }

    private static void Add(List<CurveSegment> segments, Voltage voltage, Current limit)
    {
        if (segments.Count > 0 && segments[^1].Limit == limit)
        {
            segments[^1] = segments[^1] with { To = voltage };
        }
        else
        {
            segments.Add(new CurveSegment(voltage, voltage, limit));
        }
    }
}
