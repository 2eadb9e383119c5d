using System.Collections.Immutable;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Labels;

/// <summary>What is printed for several ports used at once.</summary>
/// <param name="Ports">The ports in printed order, named as in <see cref="PrintedOutput.Port"/>.</param>
/// <param name="Split">What each port gives, in printed order; empty when only a pool or a total is printed.</param>
/// <param name="Pools">Power that several of the ports share.</param>
/// <param name="Total">The printed total of this combination.</param>
/// <param name="At">Where it is printed.</param>
/// <param name="Text">The printed words.</param>
public sealed record PrintedCombination(
    ImmutableArray<string> Ports, ImmutableArray<PrintedShare> Split, ImmutableArray<PrintedPool> Pools, Power? Total,
    Place At, string Text);

/// <summary>One port's part of a combination.</summary>
/// <param name="Port">The port.</param>
/// <param name="Power">Its printed power, if any.</param>
/// <param name="Fixed">Its printed modes, if any.</param>
public sealed record PrintedShare(string Port, Power? Power, ImmutableArray<PrintedFixed> Fixed)
{
    /// <summary>Its printed ranges, if any.</summary>
    public ImmutableArray<PrintedRange> Ranges { get; init; } = [];
}

/// <summary>A combination with more or fewer values than ports: it is not clear which value is whose.</summary>
/// <param name="Ports">The ports in printed order.</param>
/// <param name="Values">How many values are printed.</param>
/// <param name="At">Where it is printed.</param>
/// <param name="Text">The printed words.</param>
public sealed record UnfitSplit(ImmutableArray<string> Ports, int Values, Place At, string Text);

/// <summary>A combination that can be read in several ways: what is true of it must be true of each reading.</summary>
/// <param name="Readings">Two or more, likeliest first.</param>
/// <param name="At">Where it is printed.</param>
/// <param name="Text">The printed words.</param>
public sealed record AmbiguousCombination(ImmutableArray<PrintedCombination> Readings, Place At, string Text);

/// <summary>Power that several ports share.</summary>
/// <param name="Ports">The ports.</param>
/// <param name="Voltage">Printed voltage, if any.</param>
/// <param name="Current">Printed current, if any.</param>
/// <param name="Power">Printed power, or voltage times current where only these are printed.</param>
public sealed record PrintedPool(ImmutableArray<string> Ports, Voltage? Voltage, Current? Current, Power? Power);

/// <summary>The product's printed total.</summary>
/// <param name="Power">As printed.</param>
/// <param name="Scope">"product", or the label's own words when it says more.</param>
/// <param name="At">Where it is printed.</param>
/// <param name="Text">The printed words.</param>
public sealed record PrintedTotal(Power Power, string Scope, Place At, string Text);
