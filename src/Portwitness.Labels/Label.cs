using System.Collections.Immutable;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Labels;

/// <summary>A place in a label's text.</summary>
/// <param name="Line">Counted from 1.</param>
/// <param name="Column">Counted from 1, in characters as a person counts them.</param>
public readonly record struct Place(int Line, int Column);

/// <summary>A printed label as it was read. Nothing of the text is lost: what was not read is in <see cref="Unread"/>.</summary>
public sealed record Label
{
    /// <summary>Inputs, in the order of the text.</summary>
    public ImmutableArray<PrintedInput> Inputs { get; init; } = [];

    /// <summary>Outputs, one for each port, in the order of the text.</summary>
    public ImmutableArray<PrintedOutput> Outputs { get; init; } = [];

    /// <summary>Ratings for several ports at once.</summary>
    public ImmutableArray<PrintedCombination> Combinations { get; init; } = [];

    /// <summary>The total of the product; null when none is printed.</summary>
    public PrintedTotal? Total { get; init; }

    /// <summary>Battery figures; null when none are printed.</summary>
    public PrintedBattery? Battery { get; init; }

    /// <summary>Statements that are understood and rate nothing: model, serial number, origin.</summary>
    public ImmutableArray<PrintedRemark> Remarks { get; init; } = [];

    /// <summary>Words that could not be read, in the order of the text.</summary>
    public ImmutableArray<UnreadSpan> Unread { get; init; } = [];

    /// <summary>The text as given.</summary>
    public required string Text { get; init; }
}

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
public sealed record PrintedMaximum(Power Power, Place At, string Text);

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
public sealed record PrintedShare(string Port, Power? Power, ImmutableArray<PrintedFixed> Fixed);

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

/// <summary>Printed battery figures.</summary>
public sealed record PrintedBattery
{
    /// <summary>
    /// Capacity of the cells in mAh, at <see cref="NominalVoltage"/>. A printed count is multiplied in ("2x 6500 mAh" is
    /// 13000), which keeps the energy right whether the cells are in parallel or in series.
    /// </summary>
    public int? CapacityMilliampereHours { get; init; }

    /// <summary>Nominal voltage of the cell or pack.</summary>
    public Voltage? NominalVoltage { get; init; }

    /// <summary>Printed energy.</summary>
    public Energy? Energy { get; init; }

    /// <summary>Rated output capacity in mAh.</summary>
    public int? RatedCapacityMilliampereHours { get; init; }

    /// <summary>Voltage that the rated capacity is stated at.</summary>
    public Voltage? RatedVoltage { get; init; }

    /// <summary>Current that the rated capacity is stated at.</summary>
    public Current? RatedCurrent { get; init; }

    /// <summary>Where the first figure is printed.</summary>
    public required Place At { get; init; }
}

/// <summary>A statement that rates nothing.</summary>
/// <param name="At">Where it begins.</param>
/// <param name="Text">The words, verbatim.</param>
public sealed record PrintedRemark(Place At, string Text);

/// <summary>Words that could not be read.</summary>
/// <param name="At">Where they begin.</param>
/// <param name="Text">The words, verbatim.</param>
public sealed record UnreadSpan(Place At, string Text);
