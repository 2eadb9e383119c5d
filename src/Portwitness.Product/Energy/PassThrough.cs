using System.Collections.Immutable;
using Portwitness.Labels;

namespace Portwitness.Product.Energy;

/// <summary>What was read while some ports took power and others gave it.</summary>
/// <param name="Inputs">Ports that took power.</param>
/// <param name="Outputs">Ports that gave it.</param>
/// <param name="InMilliwatts">What went in; null while one of the inputs was not read.</param>
/// <param name="OutMilliwatts">What came out; null while one of the outputs was not read.</param>
/// <param name="WithoutInput">Each output after the input had left: the port, and whether its voltage was still within its limits.</param>
public sealed record PassThrough(
    ImmutableArray<string> Inputs, ImmutableArray<string> Outputs, long? InMilliwatts, long? OutMilliwatts,
    ImmutableArray<(LoadReading Reading, bool GoesOn)> WithoutInput)
{
    /// <summary>What went into the pack and its converters; negative when the pack gave something.</summary>
    public long? IntoPackMilliwatts => InMilliwatts - OutMilliwatts;

    /// <summary>One for each way in which ports are in use, in the order of the readings.</summary>
    public static ImmutableArray<PassThrough> Of(IEnumerable<LoadReading> readings) =>
    [
        .. readings.Where(static reading => !reading.Inputs.IsEmpty)
            .GroupBy(static reading => Keys(reading.Inputs) + ">" + Keys(reading.InUse)).Select(static group => Of([.. group])),
    ];

    private static PassThrough Of(LoadReading[] readings)
    {
        ImmutableArray<string> inputs = readings[0].Inputs;
        ImmutableArray<string> outputs = [.. readings[0].InUse.Where(port => !inputs.Any(input => PortNames.Same(input, port)))];
        LoadReading[] together = [.. readings.Where(static reading => !reading.InputLeft)];
        return new PassThrough(
            inputs, outputs, Sum(inputs, together), Sum(outputs, together),
            [.. readings.Where(static reading => reading.InputLeft).Select(static reading => (reading, IsWithin(reading)))]);
    }

    private static bool IsWithin(LoadReading reading) => reading.Measured >= reading.Limits.Minimum && reading.Measured <= reading.Limits.Maximum;

    // Several readings of one port were one after the other.
    private static long? Sum(ImmutableArray<string> ports, LoadReading[] readings)
    {
        long sum = 0;
        foreach (string port in ports)
        {
            if (readings.Where(reading => PortNames.Same(reading.Port, port)).ToArray() is not [var only])
            {
                return null;
            }

            sum += (long)only.Measured.Millivolts * only.Drawn.Milliamperes / 1_000;
        }

        return sum;
    }

    private static string Keys(ImmutableArray<string> ports) => string.Join('+', ports.Select(PortNames.Key).Order(StringComparer.Ordinal));
}
