using System.Collections.Immutable;
using Portwitness.Captures;
using Portwitness.Labels;
using Portwitness.PowerDelivery.Units;
using Portwitness.Product.Decisions;

namespace Portwitness.Product.Loads;

/// <summary>
/// The resistance of a cable, VBUS and ground together: by two points, V1 at the source's end and V2 at the sink's over the current, or by two currents,
/// which takes out what the meters differ by.
/// </summary>
/// <param name="Port">The port that it is at.</param>
/// <param name="At">The nominal voltage.</param>
/// <param name="Microohms">The resistance, in µΩ.</param>
/// <param name="ExpandedMicroohms">Its expanded uncertainty, k = 2, in µΩ.</param>
/// <param name="IsByTwoCurrents">Whether two currents were used.</param>
/// <param name="MostMicroamperes">The largest current, in µA.</param>
public sealed record CableLoss(string Port, Voltage At, long Microohms, long ExpandedMicroohms, bool IsByTwoCurrents, long MostMicroamperes)
{
    /// <summary>500 mV on VBUS and 250 mV on ground at the rated current (USB Type-C R2.4, 4.4.1; second-hand): 250 mΩ for 3 A.</summary>
    public const long MostMicroohmsOfThreeAmperes = 250_000;

    // Currents of both ends that differ by more were not read at once (common practice, no source).
    private const int SamePpm = 20_000;
    private const long LeastStepMicroamperes = 500_000;
    private const long LeastMicroamperes = 100_000;

    /// <summary>One for each port and voltage that was read at both ends.</summary>
    public static ImmutableArray<CableLoss> Of(IEnumerable<LoadEvidence> loads) =>
    [
        .. loads.GroupBy(static load => (Port: PortNames.Key(load.Port), InUse: string.Join('+', load.InUse.Select(PortNames.Key).Order(StringComparer.Ordinal)), load.At))
            .Select(static same => Of([.. Pairs(same)])).OfType<CableLoss>(),
    ];

    private static IEnumerable<(LoadEvidence Source, LoadEvidence Sink)> Pairs(IEnumerable<LoadEvidence> same)
    {
        LoadEvidence[] all = [.. same];
        foreach (LoadEvidence source in all.Where(static load => load.Meter.Point == MeasuringPoint.Source && load.Microamperes >= LeastMicroamperes))
        {
            LoadEvidence? sink = Array.Find(
                all, load => load.Meter.Point == MeasuringPoint.Sink && Math.Abs(load.Microamperes - source.Microamperes) * 1_000_000m <= source.Microamperes * (decimal)SamePpm);
            if (sink is not null)
            {
                yield return (source, sink);
            }
        }
    }

    private static CableLoss? Of((LoadEvidence Source, LoadEvidence Sink)[] pairs)
    {
        if (pairs.Length == 0)
        {
            return null;
        }

        (LoadEvidence Source, LoadEvidence Sink) least = pairs.MinBy(static pair => pair.Source.Microamperes), most = pairs.MaxBy(static pair => pair.Source.Microamperes);
        long step = most.Source.Microamperes - least.Source.Microamperes;
        bool isByTwo = step >= LeastStepMicroamperes;
        long drop = Drop(most) - (isByTwo ? Drop(least) : 0);
        long current = isByTwo ? step : most.Source.Microamperes;
        long microohms = drop * 1_000_000 / current;
        return new CableLoss(most.Source.Port, most.Source.At, microohms, ExpandedOf(isByTwo ? [least, most] : [most], microohms, current), isByTwo, most.Source.Microamperes);
    }

    private static long Drop((LoadEvidence Source, LoadEvidence Sink) pair) => pair.Source.Microvolts - pair.Sink.Microvolts;

    private static long ExpandedOf((LoadEvidence Source, LoadEvidence Sink)[] pairs, long microohms, long microamperes)
    {
        double perVolt = 1_000_000d / microamperes;
        double perAmpere = microohms / (double)microamperes;
        return Uncertainty.Expanded(
        [
            .. pairs.SelectMany(pair => ((double, double)[])
            [
                (perVolt, pair.Source.Meter.OfVoltage(pair.Source.Microvolts)), (perVolt, pair.Sink.Meter.OfVoltage(pair.Sink.Microvolts)),
                (perAmpere, pair.Source.Meter.OfCurrent(pair.Source.Microamperes)),
            ]),
        ]);
    }
}
