namespace Portwitness.Reports.Comparing;

/// <summary>One thing that a report says, with what makes it the same thing in another report.</summary>
/// <param name="Subject">"verdict", "finding", "offer", "statement", "label", "sharing", "claim", "teardown", "function" or "pass-through".</param>
/// <param name="Port">The port; empty for the product.</param>
/// <param name="InUse">Ports in use, in attach order, with "+" between.</param>
/// <param name="About">What it is about.</param>
internal sealed record FactKey(string Subject, string Port, string InUse, string About);

/// <summary>A quantity that a report gives, and between which values it is; null where that is not known.</summary>
/// <param name="Value">As measured, in the unit of its key.</param>
/// <param name="Least">No less than this.</param>
/// <param name="Most">No more than this.</param>
internal sealed record Quantity(long Value, long? Least = null, long? Most = null)
{
    /// <summary>Where it has to stay; null where nothing says so.</summary>
    public (long? Least, long? Most) Allowed { get; init; }
}

/// <summary>What makes a quantity the same in another report.</summary>
/// <param name="Port">The port.</param>
/// <param name="InUse">Ports in use, in attach order, with "+" between.</param>
/// <param name="About">What was measured, under what.</param>
/// <param name="Unit">"mV", "mA", "mW", "us", "uAh" or "uWh".</param>
internal sealed record QuantityKey(string Port, string InUse, string About, string Unit);
