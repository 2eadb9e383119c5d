using Portwitness.PowerDelivery.Units;
using Portwitness.Product.Pack;

namespace Portwitness.Product.Claims;

/// <summary>What a claim is about.</summary>
public enum ClaimKind
{
    /// <summary>How long a charge takes, or how long the pack runs something.</summary>
    Time,

    /// <summary>How often a device is filled.</summary>
    Fills,

    /// <summary>What the product weighs.</summary>
    Mass,

    /// <summary>How large it is.</summary>
    Size,

    /// <summary>What it gives.</summary>
    Power,
}

/// <summary>What a box or a page says beyond the label, as "claims:" of a product file has it.</summary>
/// <param name="Kind">What it is about.</param>
/// <param name="Text">The words.</param>
/// <param name="Source">Where they stand.</param>
public sealed record ProductClaim(ClaimKind Kind, string Text, string Source)
{
    /// <summary>The time, in µs.</summary>
    public long? TimeUs { get; init; }

    /// <summary>The share of the pack that is filled in that time, in millionths.</summary>
    public int SharePpm { get; init; } = 1_000_000;

    /// <summary>The power that it is charged with; null when that is not said.</summary>
    public Power? Input { get; init; }

    /// <summary>The power that it gives meanwhile; null for a time to charge.</summary>
    public Power? Output { get; init; }

    /// <summary>How often, in thousandths.</summary>
    public int? ThousandthsOfFills { get; init; }

    /// <summary>The device that is filled; empty when it is not named.</summary>
    public string Device { get; init; } = "";

    /// <summary>What that device's battery holds, in mWh; null when it is not said.</summary>
    public int? DeviceMilliwattHours { get; init; }

    /// <summary>In mg.</summary>
    public int? MassMilligrams { get; init; }

    /// <summary>The sides.</summary>
    public CellSize? Size { get; init; }

    /// <summary>The power.</summary>
    public Power? Power { get; init; }

    /// <summary>The port that gives it; empty for the product.</summary>
    public string Port { get; init; } = "";
}
