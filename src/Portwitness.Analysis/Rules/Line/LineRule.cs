using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Captures;
using Portwitness.PowerDelivery.Framing;

namespace Portwitness.Analysis.Rules;

/// <summary>Who sent a frame.</summary>
public enum FrameSender
{
    /// <summary>Not known: a reset, a frame of or to a cable, or one that broke.</summary>
    Unknown,

    /// <summary>The source.</summary>
    Source,

    /// <summary>The sink.</summary>
    Sink,
}

/// <summary>A frame as it was sent.</summary>
/// <param name="Quality">How well, as far as the recording shows it.</param>
/// <param name="Break">Why it broke; a frame that did not is a message with a right CRC, or a reset.</param>
/// <param name="Sender">Who sent it.</param>
public readonly record struct SentFrame(FrameQuality Quality, FrameBreak Break, FrameSender Sender)
{
    /// <summary>The bit at which it broke; null when not stated.</summary>
    public int? Bit { get; init; }

    /// <summary>Since the end of the frame before; null when that is not known.</summary>
    public FrameGap? Gap { get; init; }
}

/// <summary>Time between the last bit of a frame and the first of the next.</summary>
/// <param name="Nanoseconds">As recorded.</param>
/// <param name="Uncertainty">By how much it may be longer or shorter: steps of the stamps, and what is open about the rate of the frame before.</param>
public readonly record struct FrameGap(long Nanoseconds, long Uncertainty);

/// <summary>A rule about how frames are sent on the CC line.</summary>
public abstract class LineRule : Rule
{
    /// <summary>What a rule about broken frames needs.</summary>
    protected const string BrokenFrameEvidence =
        "A recording of the CC line. Who sent a broken frame, and whether noise broke it, no recording proves.";

    /// <summary>What to do about a broken frame.</summary>
    protected const string RecordAgain = "Record again with short wires to the CC line, and see whether it happens at the same place.";

    /// <summary>
    /// Whether a frame is evidence although one beside it broke. Where a recording loses samples, preambles are short, rates are wrong and
    /// frames stop, whoever sent them.
    /// </summary>
    public virtual bool HoldsBesideBrokenFrames => false;

    /// <summary>Looks at a frame and reports what breaks this rule.</summary>
    public abstract void Check(in SentFrame frame, IHitSink hits);

    /// <summary>
    /// What is certain is the source's fault only where the source sent it: of the sink's frames it is a note, of others nobody
    /// can tell whose it is.
    /// </summary>
    private protected static Hit OfSender(FrameSender sender, Phrase detail) => sender switch
    {
        FrameSender.Source => new Hit(Verdict.Fails, detail),
        FrameSender.Sink => new Hit(Verdict.CannotTell, $"{detail} The sink sent it.") { IsNote = true },
        _ => new Hit(Verdict.CannotTell, $"{detail} Who sent it is not known.") { NextStep = "See whether messages of the source show the same." },
    };
}
