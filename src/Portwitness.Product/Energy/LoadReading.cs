using System.Collections.Immutable;
using Portwitness.Captures;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Product.Energy;

/// <summary>One element of "loads:" of a product file that states what was read: a port, what its load was set to, and what it gave.</summary>
/// <param name="Port">The port.</param>
/// <param name="AtVoltage">The printed voltage that it was loaded at.</param>
/// <param name="Measured">Voltage that was read.</param>
/// <param name="Drawn">Current that was read.</param>
public sealed record LoadReading(string Port, Voltage AtVoltage, Voltage Measured, Current Drawn)
{
    /// <summary>Ports in use; the port alone when nothing else is stated.</summary>
    public ImmutableArray<string> InUse { get; init; } = [];

    /// <summary>How long it was loaded before it was read, in µs; null when it is not stated.</summary>
    public long? ForUs { get; init; }

    /// <summary>What the meter's maker states; null when nothing is stated.</summary>
    public MeasuringAccuracy? Accuracy { get; init; }

    /// <summary>Ports in use that take power; empty where none does.</summary>
    public ImmutableArray<string> Inputs { get; init; } = [];

    /// <summary>Whether it was read after the input had been taken away.</summary>
    public bool InputLeft { get; init; }

    /// <summary>When it was read; empty when it is not stated.</summary>
    public string ReadOn { get; init; } = "";

    /// <summary>Where it was measured.</summary>
    public MeasuringPoint MeasuredAt { get; init; }

    /// <summary>Line of the product file.</summary>
    public int Line { get; init; }

    /// <summary>The meter.</summary>
    public LogMeter Meter => new(MeasuredAt, Accuracy);

    /// <summary>Between which the voltage has to be.</summary>
    public VoltageBand Limits => VbusLimits.OfFixed(AtVoltage);
}
