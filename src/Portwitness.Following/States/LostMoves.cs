using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Messages;

namespace Portwitness.Following.States;

/// <summary>What one message that the capture misses may have made of a state.</summary>
internal static class LostMoves
{
    /// <summary>Adds the states after one message of a sender, whatever it was; the state itself is one of them.</summary>
    public static void Add(PortState state, bool fromSource, bool maySwap, StateSet into)
    {
        into.Add(state);
        if (state.Mode == PowerMode.Epr)
        {
            into.Add(state.Quiet() with { Mode = PowerMode.Spr });
        }

        if (fromSource)
        {
            AddOfSource(state, into);
        }
        else
        {
            AddOfSink(state, into);
        }

        AddOfEither(state, maySwap, into);
    }

    /// <summary>Adds what a message says of a state that it cannot come in: something before it was lost, or its sender is wrong.</summary>
    public static void AddImplied(PortState state, in SaidMessage said, StateSet into)
    {
        MessageKind kind = said.Kind;
        if (kind == MessageKind.Accept)
        {
            into.Add(state with { Phase = Phase.Granted, Request = PortState.Unseen });
            into.Add(state.In(Phase.Swapping));
            into.Add(state.In(Phase.VconnSwapping));
            into.Add(state.Quiet());
        }
        else if (kind == MessageKind.PSRDY)
        {
            into.Add(state.Quiet() with { Contract = PortState.Unseen });
            into.Add(state.Quiet());
        }
        else if (kind == MessageKind.Request || kind == MessageKind.EPRRequest)
        {
            into.Add(state.Asked(said.Index) with { Mode = kind == MessageKind.Request ? PowerMode.Spr : PowerMode.Epr });
        }
        else if (kind == MessageKind.EPRMode)
        {
            AddImpliedByMode(state, said.Action, into);
        }
        else if (kind == MessageKind.SourceCapabilities || kind == MessageKind.EPRSourceCapabilities)
        {
            into.Add(state.Quiet() with { Mode = kind == MessageKind.SourceCapabilities ? PowerMode.Spr : PowerMode.Epr });
            into.Add(state.Quiet());
            into.Add(state.Quiet() with { Contract = PortState.Unseen });
        }
        else
        {
            into.Add(state);
        }
    }

    private static void AddImpliedByMode(PortState state, EprModeAction? action, StateSet into)
    {
        PortState quiet = state.Quiet();
        into.Add(action switch
        {
            EprModeAction.EnterSucceeded => quiet with { Mode = PowerMode.Epr },
            EprModeAction.Enter or EprModeAction.EnterAcknowledged => state.In(Phase.EnteringEpr) with { Mode = PowerMode.Spr },
            _ => quiet with { Mode = PowerMode.Spr },
        });
        into.Add(quiet);
    }

    private static void AddOfSource(PortState state, StateSet into)
    {
        // Capabilities end what was asked.
        into.Add(state.Quiet());
        switch (state.Phase)
        {
            case Phase.Requested:
                into.Add(state with { Phase = Phase.Granted });
                break;
            case Phase.Granted:
                into.Add(state.Ready());
                break;
            case Phase.EnteringEpr:
                into.Add(state.Quiet() with { Mode = PowerMode.Epr });
                break;
            case Phase.Quiet:
                // GotoMin, of a source of R2.0.
                into.Add(state with { Phase = Phase.Granted, Request = PortState.Unseen });
                break;
        }
    }

    private static void AddOfSink(PortState state, StateSet into)
    {
        if (state.Phase == Phase.Quiet)
        {
            into.Add(state.Asked(PortState.Unseen));
            if (state.Mode == PowerMode.Spr)
            {
                into.Add(state.In(Phase.EnteringEpr));
            }
        }
    }

    private static void AddOfEither(PortState state, bool maySwap, StateSet into)
    {
        switch (state.Phase)
        {
            case Phase.Quiet:
                if (maySwap)
                {
                    into.Add(state.In(Phase.SwapAsked));
                }

                into.Add(state.In(Phase.VconnSwapAsked));
                into.Add(state.In(Phase.OtherAsked));
                break;
            case Phase.SwapAsked:
                into.Add(state.In(Phase.Swapping));
                into.Add(state.Quiet());
                break;
            case Phase.Swapping:
                into.Add(state.Swapped());
                break;
            case Phase.VconnSwapAsked:
                into.Add(state.In(Phase.VconnSwapping));
                into.Add(state.Quiet());
                break;
            case Phase.VconnSwapping or Phase.OtherAsked or Phase.EnteringEpr:
                into.Add(state.Quiet());
                break;
            case Phase.Requested:
                // A Soft_Reset ends it.
                into.Add(state.In(Phase.OtherAsked));
                break;
        }
    }
}
