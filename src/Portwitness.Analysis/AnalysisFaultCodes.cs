namespace Portwitness.Analysis;

/// <summary>The words for what an analysis could not use or list; scripts may rely on them.</summary>
public static class AnalysisFaultCodes
{
    /// <summary>Messages that were received with a wrong CRC.</summary>
    public const string CrcWrong = "crc-wrong";

    /// <summary>Something is wrong with the chunks of an extended message; what is there was still read.</summary>
    public const string ChunksFaulty = "chunks-faulty";

    /// <summary>There was more than can be listed.</summary>
    public const string NotAllListed = "not-all-listed";
}
