namespace Portwitness.Captures;

/// <summary>What a reader is told besides the bytes.</summary>
public sealed record CaptureReadOptions
{
    /// <summary>
    /// The port whose records are wanted from a file of several; null for the first one. Names are compared without
    /// regard to case. A file of one port is read whatever the name.
    /// </summary>
    public string? Port { get; init; }
}
