namespace Portwitness.Following.Exchanges;

/// <summary>What was waited for, or what a message followed, in an <see cref="Interval"/>.</summary>
public enum Awaited
{
    /// <summary>The answer to a request.</summary>
    Answer,

    /// <summary>A GoodCRC.</summary>
    GoodCrc,

    /// <summary>A message sent again.</summary>
    Retry,

    /// <summary>Enter Succeeded or Enter Failed after Enter Acknowledged.</summary>
    EprEntryEnd,

    /// <summary>The Hard Reset of a port whose Soft_Reset was not acknowledged.</summary>
    ResetAfterSoftReset,

    /// <summary>The first capabilities.</summary>
    FirstList,

    /// <summary>The first capabilities, which the capture does not have by its end.</summary>
    FirstListNeverCame,

    /// <summary>Source_Capabilities again, where nobody acknowledged the list before.</summary>
    NextList,

    /// <summary>The next Request in PPS.</summary>
    NextPpsRequest,

    /// <summary>A request that Wait put off, made again.</summary>
    RequestAfterWait,

    /// <summary>The Hard Reset with which a source ends a silence.</summary>
    ResetAfterSilence,

    /// <summary>The sink's next message in EPR mode.</summary>
    EprKeepAlive,

    /// <summary>Soft_Reset after a message that was not acknowledged.</summary>
    SoftReset,

    /// <summary>A chunk that was asked for.</summary>
    Chunk,

    /// <summary>The request for a chunk.</summary>
    ChunkRequest,

    /// <summary>Not_Supported to a chunk.</summary>
    ChunkRefusal,

    /// <summary>PS_RDY after Accept.</summary>
    PsRdy,

    /// <summary>PS_RDY of the old source in a power role swap.</summary>
    OldSourceReady,

    /// <summary>PS_RDY of the new source in a power role swap.</summary>
    NewSourceReady,

    /// <summary>The new source's capabilities after a power role swap.</summary>
    NewSourceList,
}
