using System.Collections.Immutable;

namespace Portwitness.PowerDelivery.Limits;

/// <summary>
/// The times of the protocol and of the power supply, one row a value. Where editions differ, a parameter has several
/// rows, each with its editions.
/// </summary>
/// <remarks>
/// Values are those of R3.2v1.1, Tables 5.18, 6.68 and 7.23 to 7.25. Sources that quote R3.0v2.0 and R3.1v1.6 list the same,
/// except where rows say otherwise; R2.0 was not read, so that its values are from memory unless a row confirms them.
/// </remarks>
public static partial class TimingLimits
{
    private const Editions Since31 = Editions.R31 | Editions.R32;
    private const Editions Before32 = Editions.R30 | Editions.R31;
    private const Editions Protocol = Editions.R20 | Editions.R3x;

    /// <summary>All rows.</summary>
    public static ImmutableArray<TimingLimit> All { get; } =
    [
        // Line and retries.
        Us(TTransmit, null, null, 195, "end of a message → first bit of its GoodCRC"),
        Us(TReceive, 900, 1_000, 1_100, "end of a message → end of its GoodCRC; then it is sent again"),
        Us(TRetry, null, null, 195, "tReceive run out → first bit of the retry"),
        Us(TInterFrameGap, 25, null, null, "end of a frame → first bit of the next", "R3.2v1.1 Table 5.18"),

        // Requests and answers.
        Ms(TReceiverResponse, null, null, 15, "GoodCRC of a request → first bit of the answer"),
        Ms(TSenderResponse, 27, 30, 33, "GoodCRC of a request → GoodCRC of the answer", Editions.R32, Editions.R32),
        Ms(TSenderResponse, 24, null, 33, "as above; sources disagree between 24 and 33 ms", Before32, Editions.None),
        Ms(TSenderResponse, 24, 27, 30, "as above", Editions.R20, Editions.R20),
        Ms(TSinkRequest, 100, null, null, "end of Wait → next Request"),
        Ms(TCapabilitiesMismatchResponse, null, null, 2_000, "PS_RDY → new capabilities", Editions.R3x, Editions.R32),

        // Capabilities.
        Ms(TTypeCSendSourceCap, 100, 150, 200, "Source_Capabilities → the next, before the first contract"),
        Ms(TFirstSourceCap, null, null, 250, "VBUS at vSafe5V, or GoodCRC of what ends a reset or mode → first capabilities"),
        Ms(TTypeCSinkWaitCap, 310, 465, 620, "VBUS → Hard Reset without capabilities", Editions.R3x, Editions.None),

        // Power transitions.
        Ms(TSrcTransition, 25, null, 35, "GoodCRC of Accept → VBUS begins to move"),
        Ms(TSrcTransReqSpr, null, null, 325, "GoodCRC of Accept → first bit of PS_RDY", Since31, Editions.R32),
        Ms(TSrcTransReqEpr, null, null, 760, "GoodCRC of Accept → first bit of PS_RDY", Since31, Editions.R32),
        Ms(TSrcSettleSpr, null, null, 275, "VBUS begins to move → within vSrcNew", Protocol, Editions.R3x, Power),
        Ms(TSrcSettleEpr, null, null, 700, "VBUS begins to move → within vSrcNew", Since31, Since31, Power),
        Ms(TSrcReadySpr, null, null, 285, "VBUS begins to move → new power can be drawn", Protocol, Editions.R3x, Power),
        Ms(TSrcReadyEpr, null, null, 720, "VBUS begins to move → new power can be drawn", Since31, Since31, Power),
        Ms(TPpsSrcTransSmall, 0, null, 25, "GoodCRC of Accept → PS_RDY, step up to 500 mV", Editions.R3x, Editions.R3x, Power),
        Ms(TPpsSrcTransLarge, 0, null, 275, "GoodCRC of Accept → PS_RDY, step above 500 mV", Editions.R3x, Editions.R3x, Power),
        Ms(TAvsSrcTransSmall, 0, null, 50, "GoodCRC of Accept → PS_RDY, step up to 1 V", Since31, Since31, Power),
        Ms(TAvsSrcTransLarge, 0, null, 700, "GoodCRC of Accept → PS_RDY, step above 1 V, or into AVS", Since31, Since31, Power),
        Ms(TPSTransitionSpr, 450, 500, 550, "GoodCRC of Accept → GoodCRC of PS_RDY"),
        Ms(TPSTransitionEpr, 830, 925, 1_020, "GoodCRC of Accept → GoodCRC of PS_RDY", Since31, Since31),
        Ms(TSnkStdby, null, null, 15, "Accept → standby current", Protocol, Editions.R3x, Power),
        Ms(TSnkNewPower, null, null, 15, "PS_RDY → new power level", Protocol, Editions.R3x, Power),

        // Keep-alive.
        Ms(TPPSRequest, null, null, 10_000, "Request → the next, in PPS", Editions.R3x, Editions.R3x),
        Ms(TPPSTimeout, 12_000, 13_500, 15_000, "last message → Hard Reset of the source, in PPS", Editions.R3x, Editions.R3x),
        Ms(TSinkEPRKeepAlive, 250, 375, 500, "last message of the sink → EPR_KeepAlive", Since31, Since31),
        Ms(TSourceEPRKeepAlive, 750, 875, 1_000, "last message of the sink → Hard Reset of the source", Since31, Since31),

        // EPR mode.
        Ms(TEnterEPR, 450, 500, 550, "GoodCRC of Enter → GoodCRC of Enter Succeeded", Since31, Since31),
        Ms(TEPRSourceCableDiscovery, null, null, 2_000, "first contract → cable discovered", Since31, Since31),

        // Chunks.
        Ms(TChunkingNotSupported, 40, 45, 50, "first chunk → Not_Supported", Editions.R3x, Editions.R3x),
        Ms(TChunkReceiverRequest, null, null, 15, "GoodCRC of a chunk → request for the next", Editions.R3x, Editions.R3x),
        Ms(TChunkReceiverResponse, null, null, 15, "GoodCRC of the request → the chunk", Editions.R3x, Editions.R3x),
        Ms(TChunkSenderRequest, 24, 27, 30, "GoodCRC of a chunk → GoodCRC of the request", Editions.R3x, Editions.R3x),
        Ms(TChunkSenderResponse, 24, 27, 30, "GoodCRC of the request → GoodCRC of the chunk", Editions.R3x, Editions.R3x),

        // Resets.
        Ms(TSoftReset, null, null, 15, "tReceive of the last retry run out → Soft_Reset"),
        Ms(TProtErrSoftReset, null, null, 15, "protocol error → Soft_Reset"),
        Ms(TProtErrHardReset, null, null, 15, "protocol error → Hard Reset"),
        Ms(THardReset, null, null, 5, "Soft_Reset failed → Hard Reset"),
        Us(THardResetComplete, 4_000, 4_500, 5_000, "Hard Reset asked for → sent"),
        Ms(TPSHardReset, 25, 30, 35, "Hard Reset → VBUS begins to fall"),
        Ms(TNoResponse, 4_500, 5_000, 5_500, "Hard Reset → capabilities"),
        Ms(TSafe5V, null, null, 275, "discharge begins → at most vSafe5V", Protocol, Editions.R3x, Power),
        Ms(TSafe0V, null, null, 650, "discharge begins → at most vSafe0V", Protocol, Editions.R3x, Power),
        Ms(TSrcRecoverSpr, 660, null, 1_000, "vSafe0V → VBUS on again", Protocol, Editions.R3x, Power),
        Ms(TSrcRecoverEpr, 1_085, null, 1_425, "vSafe0V → VBUS on again", Since31, Since31, Power),
        Ms(TSrcTurnOn, null, null, 275, "VBUS on → vSafe5V", Protocol, Editions.R3x, Power),

        // Swaps.
        Ms(TSinkTx, 16, 18, 20, "Rp changed → the source may begin", Editions.R3x, Editions.R3x),
        Ms(TDRSwapWait, 100, null, null, "end of Wait → next DR_Swap"),
        Ms(TPRSwapWait, 100, null, null, "end of Wait → next PR_Swap"),
        Ms(TVCONNSwapWait, 100, null, null, "end of Wait → next VCONN_Swap"),
        Ms(TEnterUSBWait, 100, null, null, "end of Wait → next Enter_USB", Editions.R3x, Editions.R3x),
        Ms(TDRSwapHardReset, null, null, 15, "DR_Swap that must not be → Hard Reset"),
        Ms(TPSSourceOffSpr, 750, 835, 920, "GoodCRC of Accept → GoodCRC of the old source's PS_RDY"),
        Ms(TPSSourceOffEpr, 1_120, 1_260, 1_400, "GoodCRC of Accept → GoodCRC of the old source's PS_RDY", Since31, Since31),
        Ms(TPSSourceOnSpr, 390, 435, 480, "GoodCRC of the old source's PS_RDY → GoodCRC of the new one's"),
        Ms(TSwapSourceStart, 20, null, null, "GoodCRC of the new source's PS_RDY → Source_Capabilities"),
        Ms(TSwapSinkReady, null, null, 15, "PS_RDY of the new source → the new sink is ready"),
        Ms(TSrcSwapStdby, null, null, 650, "Accept → the old source is off", Protocol, Editions.R3x, Power),
        Ms(TNewSrc, null, null, 275, "PS_RDY of the old source → the new one is on", Protocol, Editions.R3x, Power),
        Ms(TNewSnk, null, null, 15, "PS_RDY of the new source → the new sink draws", Protocol, Editions.R3x, Power),
        Ms(TVCONNSourceOn, null, null, 50, "VCONN_Swap accepted → VCONN on"),
        Ms(TVCONNSourceOff, null, null, 25, "PS_RDY → VCONN off"),

        // Vendor defined messages, data reset, test.
        Ms(TVDMReceiverResponse, null, null, 15, "GoodCRC of a command → first bit of the answer"),
        Ms(TVDMSenderResponse, 24, 27, 30, "GoodCRC of a command → GoodCRC of the answer"),
        Ms(TVDMBusy, 50, null, null, "BUSY → the command again"),
        Ms(TDiscoverIdentity, 40, null, 50, "Discover Identity to a cable → the next"),
        Ms(TDataReset, 200, 225, 250, "Data_Reset accepted → Data_Reset_Complete", Editions.R3x, Editions.R3x),
        Ms(TBISTContMode, 30, 45, 60, "how long BIST Carrier Mode lasts"),
    ];

    private const string Protocols = "R3.2v1.1 Table 6.68";
    private const string Power = "R3.2v1.1 Tables 7.23 to 7.25";

    /// <summary>The rows of a parameter.</summary>
    public static IEnumerable<TimingLimit> Of(string name) => All.Where(row => row.Name == name);

    /// <summary>The shortest time that any row of a parameter has, in microseconds.</summary>
    /// <exception cref="InvalidOperationException">No row of it has one.</exception>
    public static long ShortestUs(string name) => Of(name).Min(row => row.MinUs) ?? throw None(name);

    /// <summary>The longest time that any row of a parameter has, in microseconds.</summary>
    /// <exception cref="InvalidOperationException">No row of it has one.</exception>
    public static long LongestUs(string name) => Of(name).Max(row => row.MaxUs) ?? throw None(name);

    private static InvalidOperationException None(string name) => new($"\"{name}\" has no such limit.");

    private static TimingLimit Us(
        string name, long? min, long? nom, long? max, string measured, string clause = Protocols) =>
        new(name, min, nom, max, Protocol, Editions.R3x, clause, measured);

    private static TimingLimit Ms(string name, long? min, long? nom, long? max, string measured) =>
        Ms(name, min, nom, max, measured, Protocol, Editions.R3x);

    private static TimingLimit Ms(
        string name, long? min, long? nom, long? max, string measured, Editions editions, Editions confirmed,
        string clause = Protocols) =>
        new(name, min * 1000, nom * 1000, max * 1000, editions, confirmed, clause, measured);
}
