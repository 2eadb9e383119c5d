namespace Portwitness.Captures;

/// <summary>The words for what can be wrong with an input; scripts may rely on them.</summary>
public static class FaultCodes
{
    /// <summary>Nothing in it.</summary>
    public const string Empty = "input-empty";

    /// <summary>None of the known formats.</summary>
    public const string FormatUnknown = "format-unknown";
}
