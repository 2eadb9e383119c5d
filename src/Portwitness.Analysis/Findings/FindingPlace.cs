using System.Collections.Immutable;
using Portwitness.Analysis.Phrases;

namespace Portwitness.Analysis.Findings;

/// <summary>Another place at which the offence of a finding was seen, with what was seen there. What does not apply is null or empty.</summary>
public sealed record FindingPlace
{
    /// <summary>The capture's or product file's name.</summary>
    public string File { get; init; } = "";

    /// <summary>Ports in use, in attach order.</summary>
    public ImmutableArray<string> Arrangement { get; init; } = [];

    /// <summary>Microseconds from the start of the capture.</summary>
    public long? TimeUs { get; init; }

    /// <summary>Counted from 1.</summary>
    public long? MessageIndex { get; init; }

    /// <summary>Counted from 1.</summary>
    public int? ObjectPosition { get; init; }

    /// <summary>What was found here, in a sentence or two.</summary>
    public required Phrase Detail { get; init; }

    /// <summary>What would have been right.</summary>
    public Phrase Expected { get; init; } = Phrase.Empty;

    /// <summary>What was seen.</summary>
    public Phrase Observed { get; init; } = Phrase.Empty;

    /// <summary>How many more times the same was seen.</summary>
    public long Repeats { get; init; }

    /// <summary>The first place of a finding.</summary>
    internal static FindingPlace Of(Finding finding) => new()
    {
        File = finding.File,
        Arrangement = finding.Arrangement,
        TimeUs = finding.TimeUs,
        MessageIndex = finding.MessageIndex,
        ObjectPosition = finding.ObjectPosition,
        Detail = finding.Detail,
        Expected = finding.Expected,
        Observed = finding.Observed,
        Repeats = finding.Repeats,
    };
}
