using System.Collections.Immutable;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Labels;

/// <summary>A printed input: the mains inlet, or a port.</summary>
/// <param name="Port">The printed port name; null where none is printed, as for the mains inlet.</param>
/// <param name="Alternating">AC rather than DC.</param>
/// <param name="MinimumVoltage">Lower end; the same as the upper for a single voltage.</param>
/// <param name="MaximumVoltage">Upper end.</param>
/// <param name="Current">Printed current, if any.</param>
/// <param name="Power">Printed power, if any.</param>
/// <param name="FrequenciesHz">Printed frequencies.</param>
/// <param name="At">Where it is printed.</param>
/// <param name="Text">The printed words.</param>
public sealed record PrintedInput(
    string? Port, bool Alternating, Voltage MinimumVoltage, Voltage MaximumVoltage, Current? Current, Power? Power,
    ImmutableArray<int> FrequenciesHz, Place At, string Text)
{
    /// <summary>The protocol named for it, verbatim; null when none is.</summary>
    public string? Protocol { get; init; }
}

/// <summary>The most that an input takes.</summary>
/// <param name="Port">The printed port name; null where none is printed.</param>
/// <param name="Power">As printed.</param>
/// <param name="At">Where it is printed.</param>
/// <param name="Text">The printed words.</param>
public sealed record PrintedInputMaximum(string? Port, Power Power, Place At, string Text);
