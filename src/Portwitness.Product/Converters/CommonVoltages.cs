using System.Collections.Immutable;
using Portwitness.Labels;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Product.Converters;

/// <summary>At which voltages several ports can give at once what is printed for them together.</summary>
internal static class CommonVoltages
{
    // Printed watts are rounded.
    private const long SlackMicrowatts = 500_000;

    /// <summary>
    /// Voltages that all ports can have at once, the lowest of each span, in order; empty for none, and null where the label does not say
    /// what each of them needs.
    /// </summary>
    public static ImmutableArray<Voltage>? Of(Label label, PrintedCombination combination, ImmutableArray<string> ports)
    {
        ImmutableArray<VoltageSpan>[] needs = [.. ports.Select(port => Needs(label, combination, port))];
        if (Array.Exists(needs, static need => need.IsEmpty))
        {
            return null;
        }

        // Where spans overlap, the lower end of one of them is in all.
        return
        [
            .. needs.SelectMany(static need => need).Select(static span => span.Least).Distinct().Order()
                .Where(volts => Array.TrueForAll(needs, need => need.Any(span => volts >= span.Least && volts <= span.Most))),
        ];
    }

    // Empty where it is not said.
    private static ImmutableArray<VoltageSpan> Needs(Label label, PrintedCombination combination, string port)
    {
        if (combination.Pools.FirstOrDefault(pool => pool.Ports.Any(one => PortNames.Same(one, port))) is { Voltage: { } pooled })
        {
            return [new(pooled, pooled)];
        }

        PrintedShare? share = combination.Split.FirstOrDefault(one => PortNames.Same(one.Port, port));
        if (share is { Fixed.IsEmpty: false } or { Ranges.IsEmpty: false })
        {
            return Modes(share.Fixed, share.Ranges, 0);
        }

        return share?.Power is { } power && label.FindOutput(port) is { Incomplete: false } output
            ? Modes(output.Fixed, output.Ranges, (power.Milliwatts * 1000L) - SlackMicrowatts) : [];
    }

    private static ImmutableArray<VoltageSpan> Modes(ImmutableArray<PrintedFixed> modes, ImmutableArray<PrintedRange> ranges, long microwatts) =>
    [
        .. modes.Where(mode => (long)mode.Voltage.Millivolts * mode.Current.Milliamperes >= microwatts)
            .Select(static mode => new VoltageSpan(mode.Voltage, mode.Voltage)),
        .. ranges.Where(range => range.Current.Milliamperes > 0)
            .Select(range => new VoltageSpan(Larger(range.Minimum, Least(microwatts, range.Current)), range.Maximum))
            .Where(static span => span.Least <= span.Most),
    ];

    private readonly record struct VoltageSpan(Voltage Least, Voltage Most);

    private static Voltage Least(long microwatts, Current current) =>
        Voltage.FromMillivolts((int)Math.Clamp(microwatts / current.Milliamperes, 0, int.MaxValue));

    private static Voltage Larger(Voltage one, Voltage other) => one < other ? other : one;
}
