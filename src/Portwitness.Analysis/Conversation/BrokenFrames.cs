using System.Globalization;
using Portwitness.Analysis.Findings;
using Portwitness.Captures;
using Portwitness.PowerDelivery.Framing;

namespace Portwitness.Analysis.Conversation;

/// <summary>Tells people of frames that could not be read to their end.</summary>
internal static class BrokenFrames
{
    private const int MaxBytes = 16;

    /// <summary>The fault: when, where, why, and what was read.</summary>
    public static CaptureFault ToFault(BrokenFrameRecord frame)
    {
        string seconds = (frame.TimeUs / 1_000_000m).ToString("0.000000", CultureInfo.InvariantCulture);
        return new CaptureFault(frame.Line, 0, AnalysisFaultCodes.FrameBroken, $"A frame at {seconds} s broke{(frame.Bit is null ? ":" : "")} {Text(frame)}.");
    }

    /// <summary>Where it broke, why, and what was read: "at bit 94: the line fell idle before the end of packet; SOP, A1 was read".</summary>
    public static string Text(BrokenFrameRecord frame)
    {
        string place = frame.Bit is { } bit ? string.Create(CultureInfo.InvariantCulture, $"at bit {bit}: ") : "";
        string read = frame.Part.IsEmpty
            ? "nothing of the message was read"
            : $"{Convert.ToHexString(frame.Part.AsSpan()[..Math.Min(frame.Part.Length, MaxBytes)])}"
                + (frame.Part.Length > MaxBytes ? "... was read" : " was read");
        string sop = frame.Sop is { } kind ? kind.ToText() + ", " : "";
        return $"{place}{Why(frame.Why)}; {sop}{read}";
    }

    private static string Why(FrameBreak why) => why switch
    {
        FrameBreak.PreambleMissing => "the line was busy without a preamble",
        FrameBreak.OrderedSetUnknown => "no ordered set follows the preamble",
        FrameBreak.SymbolInvalid => "five bits that have no place in a message",
        FrameBreak.EdgeMisplaced => "a change of level where none belongs, or none where one does",
        FrameBreak.NotEnded => "the line fell idle before the end of packet",
        FrameBreak.EndedTooEarly => "the end of packet comes before the message is whole",
        FrameBreak.TooLong => "it goes on beyond any message",
        _ => "the recording stops within it",
    };
}
