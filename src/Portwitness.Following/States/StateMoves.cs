using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Messages;

namespace Portwitness.Following.States;

/// <summary>What a message makes of a state in a conversation that keeps the rules (R3.2v1.1, 6.3, 6.4.2, 6.4.10, 6.8).</summary>
internal static class StateMoves
{
    /// <summary>The state after a message; null where the message cannot come in this state.</summary>
    public static PortState? After(PortState state, in SaidMessage said)
    {
        MessageKind kind = said.Kind;
        return kind.Class switch
        {
            MessageClass.Control => AfterControl(state, kind, said.FromSource),
            MessageClass.Data => AfterData(state, said),
            _ => kind == MessageKind.EPRSourceCapabilities ? AfterEprList(state, said) : state,
        };
    }

    /// <summary>The state after a message that its sender should not have sent, when nothing was lost before it.</summary>
    public static PortState AfterImproper(PortState state, in SaidMessage said) =>
        said.Kind == MessageKind.Request || said.Kind == MessageKind.EPRRequest ? state.Asked(said.Index)
        : Asks(said.Kind) is { } phase ? state.In(phase)
        : state;

    /// <summary>Whether a message leaves every state as it is.</summary>
    public static bool ChangesNothing(MessageKind kind) => kind.Class switch
    {
        MessageClass.Control => !(IsAnswer(kind) || kind == MessageKind.PSRDY || Asks(kind) is not null || kind == MessageKind.GotoMin),
        MessageClass.Data => !(kind == MessageKind.SourceCapabilities || kind == MessageKind.Request
            || kind == MessageKind.EPRRequest || kind == MessageKind.EPRMode || kind == MessageKind.EnterUSB),
        _ => kind != MessageKind.EPRSourceCapabilities,
    };

    private static bool IsAnswer(MessageKind kind) => kind == MessageKind.Accept || kind == MessageKind.Reject
        || kind == MessageKind.Wait || kind == MessageKind.NotSupported;

    private static Phase? Asks(MessageKind kind) =>
        kind == MessageKind.PRSwap || kind == MessageKind.FRSwap ? Phase.SwapAsked
        : kind == MessageKind.VCONNSwap ? Phase.VconnSwapAsked
        : kind == MessageKind.DRSwap || kind == MessageKind.SoftReset || kind == MessageKind.DataReset
            || kind == MessageKind.EnterUSB ? Phase.OtherAsked
        : null;

    private static PortState? AfterControl(PortState state, MessageKind kind, bool fromSource)
    {
        if (Asks(kind) is { } phase)
        {
            return Asked(state, kind, phase);
        }

        if (kind == MessageKind.Accept)
        {
            return Accepted(state, fromSource);
        }

        if (kind == MessageKind.PSRDY)
        {
            return Ready(state, fromSource);
        }

        // A refusal of a request for data changes nothing either; GotoMin ends in PS_RDY as a request does (R2.0).
        return IsAnswer(kind) ? state.Phase is Phase.Quiet or Phase.Granted or Phase.Swapping ? state : state.Quiet()
            : kind == MessageKind.GotoMin ? state with { Phase = Phase.Granted, Request = PortState.Unseen }
            : state;
    }

    private static PortState? Accepted(PortState state, bool fromSource) => state.Phase switch
    {
        Phase.Requested when fromSource => state with { Phase = Phase.Granted },
        Phase.SwapAsked => state.In(Phase.Swapping),
        Phase.VconnSwapAsked => state.In(Phase.VconnSwapping),
        Phase.OtherAsked => state.Quiet(),
        _ => null,
    };

    private static PortState? Ready(PortState state, bool fromSource) => state.Phase switch
    {
        Phase.Granted when fromSource => state.Ready(),
        Phase.Swapping => state,
        Phase.VconnSwapping => state.Quiet(),
        _ => null,
    };

    private static PortState? AfterData(PortState state, in SaidMessage said)
    {
        MessageKind kind = said.Kind;
        if (kind == MessageKind.SourceCapabilities)
        {
            return state.Phase == Phase.Swapping ? state.Swapped()
                : state.Phase == Phase.Granted ? null
                : state.Mode == PowerMode.Epr && !said.MayAnswer ? null
                : state.Quiet();
        }

        if (kind == MessageKind.Request || kind == MessageKind.EPRRequest)
        {
            PowerMode mode = kind == MessageKind.Request ? PowerMode.Spr : PowerMode.Epr;
            return state.Mode == mode && state.Phase == Phase.Quiet && !said.FromSource ? state.Asked(said.Index) : null;
        }

        return kind == MessageKind.EPRMode ? AfterEprMode(state, said)
            : Asks(kind) is { } phase ? Asked(state, kind, phase)
            : state;
    }

    // Whoever waits for an answer or for PS_RDY asks nothing else; only a Soft_Reset ends the wait (8.3.2.1).
    private static PortState? Asked(PortState state, MessageKind kind, Phase phase) =>
        state.Phase == Phase.Quiet || kind == MessageKind.SoftReset ? state.In(phase) : null;

    private static PortState? AfterEprMode(PortState state, in SaidMessage said) => said.Action switch
    {
        EprModeAction.Enter => state.Mode == PowerMode.Spr && state.Phase == Phase.Quiet ? state.In(Phase.EnteringEpr) : null,
        EprModeAction.EnterAcknowledged => state.Phase == Phase.EnteringEpr ? state : null,
        EprModeAction.EnterSucceeded => state.Phase == Phase.EnteringEpr ? state.Quiet() with { Mode = PowerMode.Epr } : null,
        EprModeAction.EnterFailed => state.Phase == Phase.EnteringEpr ? state.Quiet() : null,
        EprModeAction.Exit => state.Mode == PowerMode.Epr ? state.Quiet() with { Mode = PowerMode.Spr } : null,
        _ => state,
    };

    private static PortState? AfterEprList(PortState state, in SaidMessage said) =>
        state.Mode == PowerMode.Epr || said.MayAnswer
            ? state.Phase == Phase.Granted ? null : state.Quiet()
            : null;
}
