using Portwitness.PowerDelivery.Headers;

namespace Portwitness.Following.States;

/// <summary>
/// The states that two ports may be in, as far as the capture tells. While it misses nothing, there is one. A lost message
/// widens the set, what comes later narrows it again: a question has an answer only where all states give the same one.
/// </summary>
public sealed class PossibleStates
{
    // So many lost in a row may have been any messages at all.
    private const int ManyLost = 3;

    private StateSet _now = new();
    private StateSet _next = new();

    // The states if the last message was improper and nothing is missing; the other side's next message tells.
    private readonly StateSet _improper = new();
    private bool? _awaited;

    /// <summary>Begins with a capture that may begin anywhere in a conversation.</summary>
    public PossibleStates() => Forget();

    /// <summary>How many states are possible.</summary>
    public int Count => _now.Count;

    /// <summary>The states, when they are few enough to be kept apart.</summary>
    public ReadOnlySpan<PortState> States => _now.States;

    /// <summary>SPR or EPR; null when the capture does not tell.</summary>
    public PowerMode? Mode { get; private set; }

    /// <summary>Index of the request that is in force, or <see cref="PortState.NoContract"/>; null when the capture does not tell.</summary>
    public long? Contract { get; private set; }

    /// <summary>Whether an explicit contract is in force, whichever; null when the capture does not tell.</summary>
    public bool? HasContract { get; private set; }

    /// <summary>What is owed; null when the capture does not tell.</summary>
    public Phase? Phase { get; private set; }

    /// <summary>Index of the request that awaits its answer or PS_RDY; null when there is none, or the capture does not tell which.</summary>
    public long? Request { get; private set; }

    /// <summary>
    /// Index of the request whose terms VBUS has, or is on its way to; <see cref="PortState.NoContract"/> for default power. Null when
    /// the capture does not tell, and while roles are swapped.
    /// </summary>
    public long? Target { get; private set; }

    /// <summary>Power roles are the other way round than at the attach; null when the capture does not tell.</summary>
    public bool? RolesSwapped { get; private set; }

    /// <summary>No list of the source can have come that the capture misses since the last one that it shows.</summary>
    public bool ListIsSeen { get; private set; }

    /// <summary>Whether the ports may swap power roles: false once the source's list says that it is no Dual-Role Power port (6.4.1.2.1.1).</summary>
    public bool MaySwap { get; private set; } = true;

    /// <summary>The source's list says whether the port may swap. Both ports of a swap can: where one cannot, none has been.</summary>
    public void OnDualRolePower(bool maySwap)
    {
        MaySwap = maySwap;
        if (maySwap || RolesSwapped is not null)
        {
            return;
        }

        _next.Clear();
        foreach (PortState state in _now.States)
        {
            if (!state.RolesSwapped)
            {
                _next.Add(state);
            }
        }

        (_now, _next) = (_next, _now);
        Ask();
    }

    /// <summary>An attach or a detach: default power, SPR mode, and roles as the connectors have them.</summary>
    public void Restart()
    {
        (ListIsSeen, _awaited) = (false, null);
        _now.SetOnly(PortState.Fresh);
        Ask();
    }

    /// <summary>A Hard Reset: default power and SPR mode; it keeps power roles (R3.2v1.1, 6.8.3), but for a swap that is under way.</summary>
    public void OnHardReset()
    {
        (ListIsSeen, _awaited) = (false, null);
        _next.Clear();
        foreach (PortState state in _now.States)
        {
            _next.Add(PortState.Fresh with { RolesSwapped = state.RolesSwapped });
            if (state.Phase == Following.States.Phase.Swapping)
            {
                _next.Add(PortState.Fresh with { RolesSwapped = !state.RolesSwapped });
            }
        }

        (_now, _next) = (_next, _now);
        Ask();
    }

    /// <summary>Anything may be: the capture begins here, or was interrupted.</summary>
    public void Forget()
    {
        bool maySwap = MaySwap && _now.Count > 0;
        _awaited = null;
        _now.Clear();
        AddAll(false);
        if (maySwap)
        {
            AddAll(true);
        }

        ListIsSeen = false;
        Ask();
    }

    /// <summary>A message on SOP that was received rightly, and is no retry.</summary>
    /// <param name="said">The message.</param>
    /// <returns>Whether the message can come in one of the states at all.</returns>
    public bool OnMessage(in SaidMessage said)
    {
        bool isList = said.Kind == MessageKind.SourceCapabilities || said.Kind == MessageKind.EPRSourceCapabilities;
        ListIsSeen |= isList;
        SettleImproper(said);
        if (StateMoves.ChangesNothing(said.Kind))
        {
            return true;
        }

        bool wasAwaited = _awaited is not null;
        bool endsSwap = Phase is Following.States.Phase.Swapping;
        bool isPossible = Move(said);

        // It went on before the other side told.
        _awaited = wasAwaited ? null : _awaited;
        if (said.MayBeginAnew && said.Kind == MessageKind.SourceCapabilities && !endsSwap)
        {
            // After an attach, or after a Hard Reset, which keeps roles.
            _now.Add(PortState.Fresh);
            if (RolesSwapped != false)
            {
                _now.Add(PortState.Fresh with { RolesSwapped = true });
            }
        }

        Ask();
        return isPossible;
    }

    /// <summary>Messages of a sender are missing from the capture.</summary>
    /// <param name="fromSource">Its sender has the power role of the source.</param>
    /// <param name="count">How many, at least 1.</param>
    public void Lose(bool fromSource, int count)
    {
        ListIsSeen &= !fromSource;
        if (count >= ManyLost)
        {
            Forget();
            return;
        }

        for (; count > 0; count--)
        {
            Widen(fromSource, !fromSource);
        }

        Ask();
    }

    /// <summary>A message is missing from the capture, of whichever sender.</summary>
    public void LoseOne()
    {
        ListIsSeen = false;
        Widen(true, true);
        Ask();
    }

    private void AddAll(bool swapped)
    {
        foreach (PowerMode mode in (ReadOnlySpan<PowerMode>)[PowerMode.Spr, PowerMode.Epr])
        {
            foreach (long contract in (ReadOnlySpan<long>)[PortState.NoContract, PortState.Unseen])
            {
                PortState quiet = new(mode, contract, Following.States.Phase.Quiet, PortState.NoContract, swapped);
                _now.Add(quiet);
                _now.Add(quiet.Asked(PortState.Unseen));
                _now.Add(quiet with { Phase = Following.States.Phase.Granted, Request = PortState.Unseen });
                _now.Add(quiet.In(Following.States.Phase.EnteringEpr));
                _now.Add(quiet.In(Following.States.Phase.OtherAsked));
            }
        }
    }

    private bool Move(in SaidMessage said)
    {
        if (TryMove(said))
        {
            return true;
        }

        // What it answers, or follows, was lost. Its sender may be wrong as well: both are kept until the other side goes on.
        KeepImproper(said);
        StateSet before = _next;
        before.Clear();
        foreach (PortState state in _now.States)
        {
            LostMoves.Add(state, !said.FromSource, MaySwap, before);
        }

        foreach (PortState state in _now.States)
        {
            LostMoves.Add(state, said.FromSource, MaySwap, before);
        }

        PortState[] stay = _now.States.ToArray();
        (_now, _next) = (before, _now);
        if (!TryMove(said))
        {
            _now.Clear();
            foreach (PortState state in stay)
            {
                LostMoves.AddImplied(state, said, _now);
            }
        }

        foreach (PortState state in _improper.States)
        {
            _now.Add(state);
        }

        return false;
    }

    private void KeepImproper(in SaidMessage said)
    {
        _improper.Clear();
        foreach (PortState state in _now.States)
        {
            _improper.Add(StateMoves.AfterImproper(state, said));
        }

        _awaited = said.GoesOn ? !said.FromSource : null;
    }

    private void SettleImproper(in SaidMessage said)
    {
        if (_awaited != said.FromSource)
        {
            return;
        }

        _awaited = null;
        if (said.GoesOn)
        {
            _now.Clear();
            foreach (PortState state in _improper.States)
            {
                _now.Add(state);
            }

            Ask();
        }
    }

    // Keeps the states that the message can come in, as it makes them.
    private bool TryMove(in SaidMessage said)
    {
        _next.Clear();
        foreach (PortState state in _now.States)
        {
            if (StateMoves.After(state, said) is { } after)
            {
                _next.Add(after);
            }
        }

        if (_next.Count == 0)
        {
            return false;
        }

        (_now, _next) = (_next, _now);
        return true;
    }

    private void Widen(bool source, bool sink)
    {
        _awaited = null;
        _next.Clear();
        foreach (PortState state in _now.States)
        {
            if (source)
            {
                LostMoves.Add(state, true, MaySwap, _next);
            }

            if (sink)
            {
                LostMoves.Add(state, false, MaySwap, _next);
            }
        }

        (_now, _next) = (_next, _now);
        if (_now.IsOverfull)
        {
            Forget();
        }
    }

    private void Ask()
    {
        ReadOnlySpan<PortState> states = _now.States;
        PortState first = states[0];
        (Mode, Contract, HasContract) = (first.Mode, first.Contract, first.Contract != PortState.NoContract);
        (Phase, Request, RolesSwapped) = (first.Phase, first.Request, first.RolesSwapped);
        Target = TargetOf(first);
        foreach (PortState state in states[1..])
        {
            Target = TargetOf(state) == Target ? Target : null;
            Mode = state.Mode == Mode ? Mode : null;
            Contract = state.Contract == Contract ? Contract : null;
            HasContract = state.Contract != PortState.NoContract == HasContract ? HasContract : null;
            Phase = state.Phase == Phase ? Phase : null;
            Request = state.Request == Request ? Request : null;
            RolesSwapped = state.RolesSwapped == RolesSwapped ? RolesSwapped : null;
        }

        Target = Target == PortState.Unseen ? null : Target;
        Contract = Contract == PortState.Unseen ? null : Contract;
        Request = Request is PortState.Unseen or PortState.NoContract ? null : Request;
    }

    private static long? TargetOf(PortState state) => state.Phase switch
    {
        Following.States.Phase.Granted => state.Request,
        Following.States.Phase.Swapping => null,
        _ => state.Contract,
    };
}
