namespace Portwitness.PowerDelivery.Limits;

/// <summary>Sizes of messages and lists, named as in the standard.</summary>
public static class MessageLimits
{
    /// <summary>Bytes in a data block (R3.2v1.1, Table 6.84), since R3.0.</summary>
    public const int MaxExtendedMsgLen = 260;

    /// <summary>Objects of 32 bits that an extended message can hold.</summary>
    public const int MaxExtendedObjects = MaxExtendedMsgLen / 4;

    /// <summary>Bytes of a data block in one chunk (R3.2v1.1, Table 6.84), since R3.0.</summary>
    public const int MaxExtendedMsgChunkLen = 26;

    /// <summary>Bytes of a data block with a partner that cannot take whole messages (R3.2v1.1, Table 6.84).</summary>
    public const int MaxExtendedMsgLegacyLen = 26;

    /// <summary>Chunks of the longest data block; chunk numbers are 0 to 9 (R3.2v1.1, 6.2.1.2).</summary>
    public const int MaxChunks = 10;

    /// <summary>Data objects in one message, and objects of an SPR list (R3.2v1.1, Table 6.6).</summary>
    public const int MaxSprObjects = 7;

    /// <summary>Position of the first EPR object of a list (R3.2v1.1, 6.5.15.1).</summary>
    public const int FirstEprPosition = 8;

    /// <summary>Objects of an EPR list (R3.2v1.1, 6.5.15.1).</summary>
    public const int MaxEprObjects = 11;

    /// <summary>
    /// The last object position that a request can code: the request tables of R3.2v1.1 reserve 0, 14 and 15 only, and
    /// speak of up to ten additional objects elsewhere. Lists of 12 and 13 are read, not counted as R3.2v1.1.
    /// </summary>
    public const int LastCodableObjectPosition = 13;

    /// <summary>The largest MessageID, nMessageIDCount (R3.2v1.1, Table 6.70).</summary>
    public const int MaxMessageId = 7;

    /// <summary>nHardResetCount (R3.2v1.1, Table 6.70): Hard Resets without an answer before a port gives up.</summary>
    public const int HardResetCount = 2;

    /// <summary>
    /// nRetryCount: how often a message that is not acknowledged is sent again; 3 in R2.0, 2 since R3.0 (R3.2v1.1,
    /// Table 6.70; R2.0 as public firmware sources have it).
    /// </summary>
    /// <param name="revisionCode">Specification Revision of the message's header.</param>
    public static int RetryCount(int revisionCode) => revisionCode < 2 ? 3 : 2;
}
