using Portwitness.Captures;

namespace Portwitness.Analysis.Findings;

/// <summary>The words for what an analysis could not use or list; scripts may rely on them.</summary>
public static class AnalysisFaultCodes
{
    /// <summary>Chunks of an extended message are missing from the capture; what is there was still read.</summary>
    public const string ChunksFaulty = "chunks-faulty";

    /// <summary>There was more than can be listed.</summary>
    public const string NotAllListed = "not-all-listed";

    /// <summary>A frame on the line that could not be read to its end.</summary>
    public const string FrameBroken = "frame-broken";

    /// <summary>Says how many there are beyond those that are listed.</summary>
    public static CaptureFault Unlisted(long unlisted, string what, int most) =>
        new(0, 0, NotAllListed, $"{unlisted} more {what} are not listed; {most} are at most");
}
