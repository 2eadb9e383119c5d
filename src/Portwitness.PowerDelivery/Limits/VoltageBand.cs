using Portwitness.PowerDelivery.Units;

namespace Portwitness.PowerDelivery.Limits;

/// <summary>Voltages between which VBUS may be, both ends allowed.</summary>
/// <param name="Minimum">The lowest.</param>
/// <param name="Maximum">The highest.</param>
public readonly record struct VoltageBand(Voltage Minimum, Voltage Maximum)
{
    /// <summary>The same band with so much more room at either end.</summary>
    public VoltageBand WidenedBy(Voltage room) => new(Minimum - room, Maximum + room);

    /// <summary>The smallest band that holds both.</summary>
    public VoltageBand And(VoltageBand other) => new(
        Minimum < other.Minimum ? Minimum : other.Minimum, Maximum > other.Maximum ? Maximum : other.Maximum);

    /// <summary>For example "19 V to 21 V".</summary>
    public override string ToString() => $"{Minimum} to {Maximum}";
}
