namespace Portwitness.Analysis.Profile;

/// <summary>How a list came here, the best evidence first.</summary>
public enum ListEvidence
{
    /// <summary>As a message that was recorded.</summary>
    Recorded,

    /// <summary>As attributes or words that a device shows of what it received.</summary>
    Shown,

    /// <summary>Out of a text that quotes it.</summary>
    Quoted,

    /// <summary>Typed, off a display for example.</summary>
    Typed,
}
