using Portwitness.Analysis.Phrases;

namespace Portwitness.Analysis.Bench;

/// <summary>What may say why the next list of a source differs from the one before.</summary>
public enum ForewarningKind
{
    /// <summary>An Alert of the port (R3.2v1.1, 6.4.6).</summary>
    Alert,

    /// <summary>A Hard Reset, of either side.</summary>
    HardReset,

    /// <summary>A Source_Info of the port with less at present than it is designed for (R3.2v1.1, 6.4.11).</summary>
    SourceInfo,

    /// <summary>The partner asked for the list.</summary>
    Request,
}

/// <summary>Something that came before a list of the port.</summary>
/// <param name="Kind">What it is.</param>
/// <param name="TimeUs">Microseconds from the start of the capture.</param>
/// <param name="Words">The same for people, with its message.</param>
public sealed record Forewarning(ForewarningKind Kind, long TimeUs, Phrase Words);
