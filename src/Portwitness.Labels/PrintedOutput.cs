using System.Collections.Immutable;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Labels;

/// <summary>What is printed for one output port when it is used alone.</summary>
public sealed record PrintedOutput
{
    /// <summary>
    /// The port's name as <see cref="PortNames.Shorten"/> gives it ("USB-C1" is "C1"). The only output of a label that
    /// names no output is called <see cref="PortNames.Unnamed"/>.
    /// </summary>
    public required string Port { get; init; }

    /// <summary>Single voltages with their current.</summary>
    public ImmutableArray<PrintedFixed> Fixed { get; init; } = [];

    /// <summary>Ranges of voltage with their current.</summary>
    public ImmutableArray<PrintedRange> Ranges { get; init; } = [];

    /// <summary>AC ratings, of a socket.</summary>
    public ImmutableArray<PrintedAlternating> Alternating { get; init; } = [];

    /// <summary>Maxima that are printed for one protocol each.</summary>
    public ImmutableArray<PrintedMaximum> ProtocolMaxima { get; init; } = [];

    /// <summary>The output is a cable that belongs to the product.</summary>
    public bool IsCaptiveCable { get; init; }

    /// <summary>The port's maximum; null when none is printed.</summary>
    public PrintedMaximum? Maximum { get; init; }

    /// <summary>
    /// Some words of this port's statements are in <see cref="Label.Unread"/>, so more may be printed for it than was read.
    /// </summary>
    public bool Incomplete { get; init; }

    /// <summary>Where the port's first statement begins.</summary>
    public required Place At { get; init; }
}

/// <summary>One printed voltage and current.</summary>
/// <param name="Voltage">As printed.</param>
/// <param name="Current">As printed.</param>
/// <param name="CurrentStep">Worth of the last printed digit of the current: 1000, 100, 10 or 1 mA.</param>
/// <param name="Power">Watts printed beside it, if any.</param>
/// <param name="Protocol">The protocol named for it, verbatim; null when none is.</param>
/// <param name="At">Where it is printed.</param>
/// <param name="Text">The printed words.</param>
public sealed record PrintedFixed(
    Voltage Voltage, Current Current, Current CurrentStep, Power? Power, string? Protocol, Place At, string Text);

/// <summary>One printed range of voltage with its current.</summary>
/// <param name="Kind">"PPS", "AVS" ... as printed; null when the label names none.</param>
/// <param name="Minimum">Lower end.</param>
/// <param name="Maximum">Upper end.</param>
/// <param name="Current">As printed.</param>
/// <param name="CurrentStep">Worth of the last printed digit of the current.</param>
/// <param name="Power">Watts printed beside it, if any.</param>
/// <param name="At">Where it is printed.</param>
/// <param name="Text">The printed words.</param>
public sealed record PrintedRange(
    string? Kind, Voltage Minimum, Voltage Maximum, Current Current, Current CurrentStep, Power? Power, Place At,
    string Text);

/// <summary>A printed maximum power.</summary>
/// <param name="Power">As printed.</param>
/// <param name="At">Where it is printed.</param>
/// <param name="Text">The printed words.</param>
public sealed record PrintedMaximum(Power Power, Place At, string Text)
{
    /// <summary>The protocol that it is printed for, verbatim; null when it is the port's.</summary>
    public string? Protocol { get; init; }
}

/// <summary>One printed AC rating.</summary>
/// <param name="Minimum">Lower end; the same as the upper for a single voltage.</param>
/// <param name="Maximum">Upper end.</param>
/// <param name="Current">Printed current, if any.</param>
/// <param name="Power">Printed power, if any.</param>
/// <param name="FrequenciesHz">Printed frequencies.</param>
/// <param name="At">Where it is printed.</param>
/// <param name="Text">The printed words.</param>
public sealed record PrintedAlternating(
    Voltage Minimum, Voltage Maximum, Current? Current, Power? Power, ImmutableArray<int> FrequenciesHz, Place At, string Text);

/// <summary>A wireless pad.</summary>
/// <param name="Name">As printed.</param>
/// <param name="Powers">Printed powers; alternatives of one another.</param>
/// <param name="At">Where it is printed.</param>
/// <param name="Text">The printed words.</param>
public sealed record PrintedPad(string Name, ImmutableArray<Power> Powers, Place At, string Text);
