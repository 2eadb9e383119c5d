namespace Portwitness.Synthesis;

/// <summary>
/// The times, in microseconds, that a synthesis leaves where the script names none. Each lies within what R3.2v1.1,
/// Table 6.68, gives for the parameter of its name, also when the longest jitter is added.
/// </summary>
internal static class Gaps
{
    /// <summary>Longest jitter that a script may ask for; the tightest rows below still hold with it.</summary>
    public const int MaxJitter = 10_000;

    /// <summary>tTransmit, at most 195 µs: end of a message to the first bit of its GoodCRC.</summary>
    public const long Transmit = 150;

    /// <summary>tInterFrameGap, at least 25 µs.</summary>
    public const long InterFrameGap = 25;

    /// <summary>tReceive, 0.9 to 1.1 ms: end of a message to giving up its GoodCRC.</summary>
    public const long Receive = 1_000;

    /// <summary>tRetry, at most 195 µs: from there to the first bit of the retry.</summary>
    public const long Retry = 100;

    /// <summary>tReceiverResponse, at most 15 ms: GoodCRC of a request to its answer. Also used where nothing is prescribed.</summary>
    public const long ReceiverResponse = 2_000;

    /// <summary>tVDMReceiverResponse, at most 15 ms.</summary>
    public const long VdmReceiverResponse = 2_500;

    /// <summary>tChunkReceiverRequest, at most 15 ms.</summary>
    public const long ChunkReceiverRequest = 2_000;

    /// <summary>tChunkReceiverResponse, at most 15 ms.</summary>
    public const long ChunkReceiverResponse = 2_000;

    /// <summary>tSenderResponse, 27 to 33 ms (R2.0: 24 to 30 ms): how long an answer is waited for.</summary>
    public const long SenderResponse = 30_000;

    /// <summary>tFirstSourceCap, at most 250 ms: VBUS at vSafe5V to the first capabilities.</summary>
    public const long FirstSourceCap = 50_000;

    /// <summary>tTypeCSendSourceCap, 100 to 200 ms: between capabilities that nobody answers.</summary>
    public const long TypeCSendSourceCap = 150_000;

    /// <summary>tSinkRequest, at least 100 ms: Wait to the next Request.</summary>
    public const long SinkRequest = 120_000;

    /// <summary>tSrcTransReq in SPR mode, at most 325 ms: GoodCRC of Accept to PS_RDY.</summary>
    public const long SrcTransReqSpr = 126_000;

    /// <summary>tSrcTransReq in EPR mode, at most 760 ms.</summary>
    public const long SrcTransReqEpr = 200_000;

    /// <summary>tPpsSrcTransSmall, at most 25 ms: up to 500 mV within one PPS object.</summary>
    public const long PpsSrcTransSmall = 10_000;

    /// <summary>tPpsSrcTransLarge, at most 275 ms.</summary>
    public const long PpsSrcTransLarge = 100_000;

    /// <summary>tAvsSrcTransSmall, at most 50 ms: up to 1 V within one AVS object.</summary>
    public const long AvsSrcTransSmall = 20_000;

    /// <summary>tAvsSrcTransLarge, at most 700 ms; also when AVS is entered.</summary>
    public const long AvsSrcTransLarge = 200_000;

    /// <summary>tSrcTurnOn, at most 275 ms: attach to vSafe5V.</summary>
    public const long SrcTurnOn = 120_000;

    /// <summary>tPSHardReset, 25 to 35 ms: Hard Reset to VBUS falling.</summary>
    public const long PSHardReset = 30_000;

    /// <summary>tSafe0V, at most 650 ms: from there to vSafe0V.</summary>
    public const long Safe0V = 200_000;

    /// <summary>tSrcRecover in SPR mode, 0.66 to 1.0 s: vSafe0V to VBUS on again.</summary>
    public const long SrcRecoverSpr = 800_000;

    /// <summary>tSrcRecover in EPR mode, 1.085 to 1.425 s.</summary>
    public const long SrcRecoverEpr = 1_250_000;
}
