using System.Collections.Immutable;

namespace Portwitness.Cli.Starting;

/// <summary>What a file of a folder seems to be.</summary>
internal enum FoundKind
{
    /// <summary>A capture of any format.</summary>
    Capture,

    /// <summary>A log of power: a table of time, volts and amps.</summary>
    Log,

    /// <summary>A text with the ratings of a label.</summary>
    Label,

    /// <summary>Offers that were typed.</summary>
    Offers,

    /// <summary>A picture.</summary>
    Photo,

    /// <summary>Something else.</summary>
    Other,
}

/// <summary>One file of a folder.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Kind">What it seems to be.</param>
internal sealed record FoundFile(string Name, FoundKind Kind)
{
    /// <summary>The port that its header names; null when it names none.</summary>
    public string? Port { get; init; }

    /// <summary>Ports whose records it holds, when it holds those of several.</summary>
    public ImmutableArray<string> Ports { get; init; } = [];

    /// <summary>Whether its header says which ports were in use.</summary>
    public bool StatesInUse { get; init; }

    /// <summary>The port that its name begins with, as "c1-of-both.csv" with C1; null when it does with none.</summary>
    public string? PortByName { get; init; }

    /// <summary>The port, by the header or else by the name.</summary>
    public string? LikelyPort => Port ?? PortByName;
}
