namespace Portwitness.PowerDelivery.Limits;

// The names of the parameters, spelled as in the standard.
public static partial class TimingLimits
{
    /// <summary>tTransmit.</summary>
    public const string TTransmit = "tTransmit";

    /// <summary>tReceive.</summary>
    public const string TReceive = "tReceive";

    /// <summary>tRetry.</summary>
    public const string TRetry = "tRetry";

    /// <summary>tInterFrameGap.</summary>
    public const string TInterFrameGap = "tInterFrameGap";

    /// <summary>tReceiverResponse.</summary>
    public const string TReceiverResponse = "tReceiverResponse";

    /// <summary>tSenderResponse.</summary>
    public const string TSenderResponse = "tSenderResponse";

    /// <summary>tSinkRequest.</summary>
    public const string TSinkRequest = "tSinkRequest";

    /// <summary>tCapabilitiesMismatchResponse.</summary>
    public const string TCapabilitiesMismatchResponse = "tCapabilitiesMismatchResponse";

    /// <summary>tTypeCSendSourceCap.</summary>
    public const string TTypeCSendSourceCap = "tTypeCSendSourceCap";

    /// <summary>tFirstSourceCap.</summary>
    public const string TFirstSourceCap = "tFirstSourceCap";

    /// <summary>tTypeCSinkWaitCap.</summary>
    public const string TTypeCSinkWaitCap = "tTypeCSinkWaitCap";

    /// <summary>tSrcTransition.</summary>
    public const string TSrcTransition = "tSrcTransition";

    /// <summary>tSrcTransReq SPR.</summary>
    public const string TSrcTransReqSpr = "tSrcTransReq SPR";

    /// <summary>tSrcTransReq EPR.</summary>
    public const string TSrcTransReqEpr = "tSrcTransReq EPR";

    /// <summary>tSrcSettle SPR.</summary>
    public const string TSrcSettleSpr = "tSrcSettle SPR";

    /// <summary>tSrcSettle EPR.</summary>
    public const string TSrcSettleEpr = "tSrcSettle EPR";

    /// <summary>tSrcReady SPR.</summary>
    public const string TSrcReadySpr = "tSrcReady SPR";

    /// <summary>tSrcReady EPR.</summary>
    public const string TSrcReadyEpr = "tSrcReady EPR";

    /// <summary>tPpsSrcTransSmall.</summary>
    public const string TPpsSrcTransSmall = "tPpsSrcTransSmall";

    /// <summary>tPpsSrcTransLarge.</summary>
    public const string TPpsSrcTransLarge = "tPpsSrcTransLarge";

    /// <summary>tAvsSrcTransSmall.</summary>
    public const string TAvsSrcTransSmall = "tAvsSrcTransSmall";

    /// <summary>tAvsSrcTransLarge.</summary>
    public const string TAvsSrcTransLarge = "tAvsSrcTransLarge";

    /// <summary>tPSTransition SPR.</summary>
    public const string TPSTransitionSpr = "tPSTransition SPR";

    /// <summary>tPSTransition EPR.</summary>
    public const string TPSTransitionEpr = "tPSTransition EPR";

    /// <summary>tSnkStdby.</summary>
    public const string TSnkStdby = "tSnkStdby";

    /// <summary>tSnkNewPower.</summary>
    public const string TSnkNewPower = "tSnkNewPower";

    /// <summary>tPPSRequest.</summary>
    public const string TPPSRequest = "tPPSRequest";

    /// <summary>tPPSTimeout.</summary>
    public const string TPPSTimeout = "tPPSTimeout";

    /// <summary>tSinkEPRKeepAlive.</summary>
    public const string TSinkEPRKeepAlive = "tSinkEPRKeepAlive";

    /// <summary>tSourceEPRKeepAlive.</summary>
    public const string TSourceEPRKeepAlive = "tSourceEPRKeepAlive";

    /// <summary>tEnterEPR.</summary>
    public const string TEnterEPR = "tEnterEPR";

    /// <summary>tEPRSourceCableDiscovery.</summary>
    public const string TEPRSourceCableDiscovery = "tEPRSourceCableDiscovery";

    /// <summary>tChunkingNotSupported.</summary>
    public const string TChunkingNotSupported = "tChunkingNotSupported";

    /// <summary>tChunkReceiverRequest.</summary>
    public const string TChunkReceiverRequest = "tChunkReceiverRequest";

    /// <summary>tChunkReceiverResponse.</summary>
    public const string TChunkReceiverResponse = "tChunkReceiverResponse";

    /// <summary>tChunkSenderRequest.</summary>
    public const string TChunkSenderRequest = "tChunkSenderRequest";

    /// <summary>tChunkSenderResponse.</summary>
    public const string TChunkSenderResponse = "tChunkSenderResponse";

    /// <summary>tSoftReset.</summary>
    public const string TSoftReset = "tSoftReset";

    /// <summary>tProtErrSoftReset.</summary>
    public const string TProtErrSoftReset = "tProtErrSoftReset";

    /// <summary>tProtErrHardReset.</summary>
    public const string TProtErrHardReset = "tProtErrHardReset";

    /// <summary>tHardReset.</summary>
    public const string THardReset = "tHardReset";

    /// <summary>tHardResetComplete.</summary>
    public const string THardResetComplete = "tHardResetComplete";

    /// <summary>tPSHardReset.</summary>
    public const string TPSHardReset = "tPSHardReset";

    /// <summary>tNoResponse.</summary>
    public const string TNoResponse = "tNoResponse";

    /// <summary>tSafe5V.</summary>
    public const string TSafe5V = "tSafe5V";

    /// <summary>tSafe0V.</summary>
    public const string TSafe0V = "tSafe0V";

    /// <summary>tSrcRecover SPR.</summary>
    public const string TSrcRecoverSpr = "tSrcRecover SPR";

    /// <summary>tSrcRecover EPR.</summary>
    public const string TSrcRecoverEpr = "tSrcRecover EPR";

    /// <summary>tSrcTurnOn.</summary>
    public const string TSrcTurnOn = "tSrcTurnOn";

    /// <summary>tSinkTx.</summary>
    public const string TSinkTx = "tSinkTx";

    /// <summary>tDRSwapWait.</summary>
    public const string TDRSwapWait = "tDRSwapWait";

    /// <summary>tPRSwapWait.</summary>
    public const string TPRSwapWait = "tPRSwapWait";

    /// <summary>tVCONNSwapWait.</summary>
    public const string TVCONNSwapWait = "tVCONNSwapWait";

    /// <summary>tEnterUSBWait.</summary>
    public const string TEnterUSBWait = "tEnterUSBWait";

    /// <summary>tDRSwapHardReset.</summary>
    public const string TDRSwapHardReset = "tDRSwapHardReset";

    /// <summary>tPSSourceOff SPR.</summary>
    public const string TPSSourceOffSpr = "tPSSourceOff SPR";

    /// <summary>tPSSourceOff EPR.</summary>
    public const string TPSSourceOffEpr = "tPSSourceOff EPR";

    /// <summary>tPSSourceOn SPR.</summary>
    public const string TPSSourceOnSpr = "tPSSourceOn SPR";

    /// <summary>tSwapSourceStart.</summary>
    public const string TSwapSourceStart = "tSwapSourceStart";

    /// <summary>tSwapSinkReady.</summary>
    public const string TSwapSinkReady = "tSwapSinkReady";

    /// <summary>tSrcSwapStdby.</summary>
    public const string TSrcSwapStdby = "tSrcSwapStdby";

    /// <summary>tNewSrc.</summary>
    public const string TNewSrc = "tNewSrc";

    /// <summary>tNewSnk.</summary>
    public const string TNewSnk = "tNewSnk";

    /// <summary>tVCONNSourceOn.</summary>
    public const string TVCONNSourceOn = "tVCONNSourceOn";

    /// <summary>tVCONNSourceOff.</summary>
    public const string TVCONNSourceOff = "tVCONNSourceOff";

    /// <summary>tVDMReceiverResponse.</summary>
    public const string TVDMReceiverResponse = "tVDMReceiverResponse";

    /// <summary>tVDMSenderResponse.</summary>
    public const string TVDMSenderResponse = "tVDMSenderResponse";

    /// <summary>tVDMBusy.</summary>
    public const string TVDMBusy = "tVDMBusy";

    /// <summary>tDiscoverIdentity.</summary>
    public const string TDiscoverIdentity = "tDiscoverIdentity";

    /// <summary>tDataReset.</summary>
    public const string TDataReset = "tDataReset";

    /// <summary>tBISTContMode.</summary>
    public const string TBISTContMode = "tBISTContMode";
}
