namespace Portwitness.Captures.Measurements;

/// <summary>Which of its two inputs a capture with measurements needs next.</summary>
public enum NeededInput
{
    /// <summary>Neither; both have ended.</summary>
    None,

    /// <summary>The capture.</summary>
    Capture,

    /// <summary>The measurements.</summary>
    Measurements,
}
