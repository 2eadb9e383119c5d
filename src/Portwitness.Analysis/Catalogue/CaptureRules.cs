using System.Collections.Immutable;
using Portwitness.Analysis.Rules;
using Portwitness.Analysis.Rules.Cables;
using Portwitness.Analysis.Rules.Capabilities;
using Portwitness.Analysis.Rules.Line;
using Portwitness.Analysis.Rules.Messages;
using Portwitness.Analysis.Rules.Requests;
using Portwitness.Analysis.Rules.Sequence;
using Portwitness.Analysis.Rules.Timing;
using Portwitness.Analysis.Rules.Vbus;

namespace Portwitness.Analysis.Catalogue;

/// <summary>The rules about one capture, one line each. To add one, add its line here; tests sweep the list.</summary>
public static class CaptureRules
{
    /// <summary>All of them.</summary>
    public static ImmutableArray<Rule> All { get; } =
    [
        // Rules about how a message is built.
        new ObjectCountDiffersFromLength(),

        // Rules about what a message holds.
        new ReservedMessageType(),
        new ObjectCountWrong(),
        new DataBlockTooShort(),
        new ReservedBitsInMessage(),
        new ReservedCode(),
        new MessageNotForCables(),

        // Rules about one capability list.
        new FirstObjectNotVSafe5V(),
        new ObjectsOutOfOrder(),
        new VoltageOfferedTwice(),
        new TooManyObjects(),
        new ReservedBitsSet(),
        new FlagsBeyondFirstObject(),
        new CurrentAbove5A(),
        new CurrentAbove3AWithout5ACable(),
        new VoltageBeyondRange(),
        new NormativeVoltageMissing(),
        new NormativeCurrentTooLow(),
        new CurrentBeyondPdp(),
        new OptionalVoltageAbove9V(),
        new PpsRangeNotStandard(),
        new AugmentedObjectInRevision2(),
        new EmptyObject(),
        new UnknownObjectKind(),
        new PdpNotAStandardFigure(),
        new BatteryPowerBeyondPdp(),
        new VariableRangeTooWide(),
        new RangeLimitsSwapped(),
        new PpsLimitsSwapped(),
        new PpsNormativeRangeMissing(),
        new PpsCurrentTooLow(),
        new PpsCurrentBeyondPdp(),
        new SprAvsMissing(),
        new SprAvsCurrentsDiffer(),
        new OptionalVoltageFromEprSource(),
        new EprObjectInSprPosition(),
        new EprPaddingNotZero(),
        new EprVoltageBeyondPdp(),
        new EprNormativeObjectMissing(),
        new EprAvsRangeWrong(),
        new AvsObjectRepeated(),
        new ObjectNewerThanEdition(),
        new PowerAbove240W(),

        // Rules about what a port says in several messages.
        new CapabilitiesChanged(),
        new DeclaredPdpDiffers(),
        new SourceInfoInconsistent(),
        new PowerRoleFlagInconsistent(),
        new EprFlagInconsistent(),
        new EprPositionsDifferFromSpr(),
        new StaticFactChanged(),

        // Rules about requests and their answers.
        new RequestPositionInvalid(),
        new RequestBeyondOfferedCurrent(),
        new RequestVoltageOutsideRange(),
        new RequestStepInvalid(),
        new RequestCopyDiffers(),
        new RequestWrongForMode(),
        new RequestDeprecatedGiveback(),
        new RequestReservedBitsSet(),
        new ValidRequestRejected(),
        new InvalidRequestAccepted(),

        // Rules about which messages follow which.
        new CrcWrong(),
        new GoodCrcMissing(),
        new GoodCrcIdWrong(),
        new MessageIdNotAdvanced(),
        new MessageIdNotReset(),
        new RetriesExceeded(),
        new AnswerMissing(),
        new CompletionMissing(),
        new UnexpectedMessage(),
        new PowerRoleBitWrong(),
        new DataRolesEqual(),
        new VdmBeforeContract(),
        new VdmVersionInconsistent(),
        new EprEnteredWithEprBitClear(),
        new EprLeftUnderEprContract(),
        new MandatoryAnswerNotSupported(),
        new ChunkMissing(),
        new UnchunkedWithoutAgreement(),
        new RevisionChangedUnderContract(),
        new CapabilitiesNeverAnswered(),
        new HardResetSeen(),
        new ResetLoop(),

        // Rules about times.
        new GoodCrcLate(),
        new RetryMistimed(),
        new ResponseLate(),
        new VdmResponseLate(),
        new ChunkLate(),
        new CapabilitiesMistimed(),
        new FirstCapabilitiesLate(),
        new SourceTransitionLate(),
        new PSTransitionLate(),
        new PpsTransitionLate(),
        new AvsTransitionLate(),
        new RequestAfterWaitEarly(),
        new PpsKeepAliveLate(),
        new EprEntryLate(),
        new EprKeepAliveLate(),
        new SwapMistimed(),
        new SoftResetLate(),
        new HardResetMistimed(),

        // Rules about the cable.
        new FiveAmpOfferWithoutCableCheck(),
        new EprEnteredWithoutEprCable(),
        new CableIdentityInconsistent(),

        // Rules about what was measured on VBUS.
        new VbusOutsideTolerance(),
        new VbusOvershoot(),
        new VbusDroop(),
        new VbusDroppedOut(),
        new DeliveredPowerBelowContract(),
        new VbusTransitionLate(),
        new VbusMovedTooEarly(),
        new VbusSlewTooFast(),
        new PpsCurrentLimitWrong(),
        new VbusNotRemovedByHardReset(),
        new VbusRecoveryTimeWrong(),
        new VbusPresentAfterDetach(),
        new VbusPresentBeforeAttach(),
        new VbusTurnOnLate(),
        new VbusFellTooEarly(),
        new LoadBeyondContract(),
        new StatusDiffersFromMeasurement(),

        // Rules about how frames are sent on the line.
        new BitRateOutsideLimits(),
        new PreambleTooShort(),
        new FrameGapTooShort(),
        new FrameNotEnded(),
        new SymbolInvalid(),
    ];

    /// <summary>Descriptions in the order of the list.</summary>
    public static ImmutableArray<RuleDescription> Descriptions { get; } = [.. All.Select(rule => rule.Description)];
}
