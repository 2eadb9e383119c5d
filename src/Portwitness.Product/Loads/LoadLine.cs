using System.Collections.Immutable;
using Portwitness.Captures;
using Portwitness.Labels;
using Portwitness.PowerDelivery.Units;
using Portwitness.Product.Decisions;

namespace Portwitness.Product.Loads;

/// <summary>What a port's voltage does between two loads: load effect, and output resistance, which is negative where the port makes up for its cable.</summary>
/// <param name="Port">The port.</param>
/// <param name="InUse">Ports in use.</param>
/// <param name="At">The nominal voltage.</param>
/// <param name="Least">The load with the least current.</param>
/// <param name="Most">The load with the most current.</param>
public sealed record LoadLine(string Port, ImmutableArray<string> InUse, Voltage At, LoadEvidence Least, LoadEvidence Most)
{
    // Two loads that differ by less say nothing of a resistance (common practice, no source).
    private const long LeastStepMicroamperes = 500_000;

    /// <summary>The voltage at the smaller load less that at the larger, over the nominal one, in millionths.</summary>
    public long EffectPpm => (Least.Microvolts - Most.Microvolts) * 1000 / At.Millivolts;

    /// <summary>In µΩ.</summary>
    public long Microohms => (Least.Microvolts - Most.Microvolts) * 1_000_000 / StepMicroamperes;

    /// <summary>Its expanded uncertainty, k = 2, in µΩ.</summary>
    public long ExpandedMicroohms
    {
        get
        {
            (double step, double ohms) = (StepMicroamperes / 1_000_000d, Microohms / 1_000_000d);
            return Uncertainty.Expanded(
            [
                (1 / step, Least.Meter.OfVoltage(Least.Microvolts)), (1 / step, Most.Meter.OfVoltage(Most.Microvolts)),
                (ohms / step, Least.Meter.OfCurrent(Least.Microamperes)), (ohms / step, Most.Meter.OfCurrent(Most.Microamperes)),
            ]);
        }
    }

    private long StepMicroamperes => Most.Microamperes - Least.Microamperes;

    /// <summary>One for each port, arrangement and voltage that was loaded with two currents, measured at the port itself.</summary>
    public static ImmutableArray<LoadLine> Of(IEnumerable<LoadEvidence> loads) =>
    [
        .. loads.Where(static load => load.Meter.Point == MeasuringPoint.Source)
            .GroupBy(static load => (Port: PortNames.Key(load.Port), InUse: string.Join('+', load.InUse.Select(PortNames.Key).Order(StringComparer.Ordinal)), load.At))
            .Select(static same => new LoadLine(same.First().Port, same.First().InUse, same.Key.At, same.MinBy(static load => load.Microamperes)!, same.MaxBy(static load => load.Microamperes)!))
            .Where(static line => line.StepMicroamperes >= LeastStepMicroamperes),
    ];
}
