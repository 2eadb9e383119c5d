namespace Portwitness.Captures;

/// <summary>
/// How well a frame was sent, as far as a recording of the line shows it. What the recording does not settle is null: it
/// says nothing of the sender.
/// </summary>
/// <param name="BitsPerSecond">The rate of the last 32 bits of the preamble (R3.2v1.1, 5.8.1, fBitRate).</param>
/// <param name="RateUncertainty">
/// How far that may be off either way, in bits a second, for the recording's own steps of time and the jitter of edges.
/// </param>
/// <param name="DriftPpm">How much faster than that the rest of the frame is on average, in parts per million.</param>
/// <param name="JitterNs">
/// The farthest that an edge stood from its place, in nanoseconds, less the recording's own steps of time: at least so much
/// is the sender's.
/// </param>
/// <param name="PreambleBits">Bits of the preamble; null unless the line was seen idle before and nothing else came between.</param>
/// <param name="SetSymbols">Symbols of the ordered set that were right, 3 or 4; null when no set was found.</param>
/// <param name="Glitches">Pulses too short for BMC that were left out.</param>
public readonly record struct FrameQuality(
    int? BitsPerSecond = null,
    int? RateUncertainty = null,
    int? DriftPpm = null,
    int? JitterNs = null,
    int? PreambleBits = null,
    int? SetSymbols = null,
    int? Glitches = null)
{
    /// <summary>Whether anything is stated.</summary>
    public bool IsStated => this != default;
}
