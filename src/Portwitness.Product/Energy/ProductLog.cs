using System.Collections.Immutable;
using Portwitness.Captures;
using Portwitness.Captures.Tables;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Product.Energy;

/// <summary>What a log measures.</summary>
public enum LogKind
{
    /// <summary>What comes out of a port.</summary>
    Discharge,

    /// <summary>What goes into it.</summary>
    Charge,
}

/// <summary>What a positive current of a log means.</summary>
public enum CurrentSign
{
    /// <summary>Not stated: the net charge is taken to run the way that the kind of log says.</summary>
    Inferred,

    /// <summary>Out of the port.</summary>
    OutPositive,

    /// <summary>Into the port.</summary>
    OutNegative,
}

/// <summary>One entry of "discharges:" of a product file.</summary>
/// <param name="File">Path relative to the product file, inside its folder.</param>
/// <param name="Port">The port; null when it is not stated.</param>
public sealed record ProductLog(string File, string? Port)
{
    /// <summary>Headings of columns with temperatures; empty for none.</summary>
    public ImmutableArray<string> Temperatures { get; init; } = [];

    /// <summary>Whether it is one of "soaks:": a load that is held to see for how long, and how hot.</summary>
    public bool IsSoak { get; init; }

    /// <summary>The capture that ran beside it, its time 0 the same; null where none is named.</summary>
    public string? With { get; init; }

    /// <summary>By how much the log's time 0 is behind that of the capture, in µs; negative before it.</summary>
    public long OffsetUs { get; init; }

    /// <summary>The day on which it was taken; empty where it is not stated.</summary>
    public string ReadOn { get; init; } = "";

    /// <summary>Whether it goes out or in.</summary>
    public LogKind Kind { get; init; }

    /// <summary>Ports in use; empty when nothing is stated, and then the port alone.</summary>
    public ImmutableArray<string> InUse { get; init; } = [];

    /// <summary>The voltage that the port was set to; null when it is not stated.</summary>
    public Voltage? AtVoltage { get; init; }

    /// <summary>The current that the load was set to; null when it is not stated.</summary>
    public Current? AtCurrent { get; init; }

    /// <summary>What the meter's maker states; null when nothing is stated.</summary>
    public MeasuringAccuracy? Accuracy { get; init; }

    /// <summary>Where it was measured.</summary>
    public MeasuringPoint MeasuredAt { get; init; }

    /// <summary>The sign of the current.</summary>
    public CurrentSign Sign { get; init; }

    /// <summary>Below this the discharge is over; null when the output's own end counts.</summary>
    public Voltage? CutOff { get; init; }

    /// <summary>Whether the pack was full when a discharge began; null when it is not stated, and taken to be so.</summary>
    public bool? BegunFull { get; init; }

    /// <summary>Longest step between rows that is no gap, in µs; null for a multiple of the usual step.</summary>
    public long? LongestStepUs { get; init; }

    /// <summary>Which columns hold what.</summary>
    public TableMapping Columns { get; init; } = new();

    /// <summary>"5 V 2 A", or what of it is stated; empty for none.</summary>
    public string AtText => $"{AtVoltage} {AtCurrent}".Trim();
}
