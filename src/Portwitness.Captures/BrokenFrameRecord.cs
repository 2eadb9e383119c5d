using System.Collections.Immutable;
using Portwitness.PowerDelivery.Framing;

namespace Portwitness.Captures;

/// <summary>A frame on the line that could not be read to its end.</summary>
/// <param name="TimeUs">When its first bit that was seen began, in microseconds from the start.</param>
/// <param name="Line">Line of the input, counted from 1; 0 when the input has no lines.</param>
/// <param name="Why">Why it broke.</param>
public sealed record BrokenFrameRecord(long TimeUs, long Line, FrameBreak Why)
{
    /// <summary>The bit at which it broke, counted from 0, the first of the preamble that was seen; null when not stated.</summary>
    public int? Bit { get; init; }

    /// <summary>When that bit began, in microseconds from the start; null when not stated.</summary>
    public long? BrokeAtUs { get; init; }

    /// <summary>Whom it is between; null when it broke before that was known.</summary>
    public SopKind? Sop { get; init; }

    /// <summary>Whether it may have been between these.</summary>
    public bool MayBe(SopKind kind) => Sop is null || Sop == kind;

    /// <summary>The whole bytes that were read: header, data, and of a frame that broke late the CRC too.</summary>
    public ImmutableArray<byte> Part { get; init; } = [];

    /// <summary>How well it was sent up to there.</summary>
    public FrameQuality Quality { get; init; }

    /// <summary>Members that version 1 of the format does not define, as a JSON object; null when there were none.</summary>
    public string? Extra { get; init; }
}

/// <summary>The words of the capture format for why a frame broke.</summary>
public static class FrameBreaks
{
    private static readonly string[] Words =
    [
        "", "preamble-missing", "ordered-set-unknown", "symbol-invalid", "edge-misplaced", "not-ended", "ended-too-early", "too-long",
        "recording-stopped",
    ];

    /// <summary>All words.</summary>
    public static IReadOnlyList<string> All { get; } = Words[1..];

    /// <summary>The word, for example "symbol-invalid".</summary>
    public static string ToWord(this FrameBreak why) => Words[(int)why];

    /// <summary>Reads a word; false when it is none.</summary>
    public static bool TryParse(string word, out FrameBreak why)
    {
        int found = word.Length == 0 ? -1 : Array.IndexOf(Words, word);
        why = (FrameBreak)Math.Max(found, 0);
        return found > 0;
    }
}
