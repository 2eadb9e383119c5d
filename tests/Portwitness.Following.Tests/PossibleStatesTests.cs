using Portwitness.Following.States;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Messages;

namespace Portwitness.Following.Tests;

/// <summary>
/// What is known of two ports while messages are missing. The conversations are those of R3.2v1.1, 6.3, 6.4.2, 6.4.10 and
/// Figures of 8.3.2: request, Accept, PS_RDY; EPR_Mode Enter to Enter Succeeded, and Exit.
/// </summary>
public class PossibleStatesTests
{
    private readonly PossibleStates _states = new();
    private long _index;

    [Fact]
    public void CaptureThatBeginsAnywhere_KnowsNothing()
    {
        _states.Mode.Should().BeNull();
        _states.Contract.Should().BeNull();
        _states.HasContract.Should().BeNull();
        _states.RolesSwapped.Should().BeFalse("a charger begins as the source");
    }

    [Fact]
    public void CompleteCapture_HasOneState()
    {
        Attach();
        _states.Should().BeEquivalentTo(new { Count = 1, Mode = PowerMode.Spr, Contract = 0L, HasContract = false, Phase = Phase.Quiet });

        Source(MessageKind.SourceCapabilities);
        long request = Sink(MessageKind.Request);
        _states.Phase.Should().Be(Phase.Requested);
        Source(MessageKind.Accept);
        _states.Should().BeEquivalentTo(new { Count = 1, Contract = 0L, Phase = Phase.Granted, Request = request });
        Source(MessageKind.PSRDY);
        _states.Should().BeEquivalentTo(new { Count = 1, Contract = request, HasContract = true, Phase = Phase.Quiet });
    }

    [Fact]
    public void LostRequest_LeavesOpenWhatAcceptGrants()
    {
        long first = Contract();

        _states.Lose(fromSource: false, 1);
        Source(MessageKind.Accept);
        Source(MessageKind.PSRDY);

        _states.Contract.Should().BeNull();
        _states.States.ToArray().Should().OnlyContain(state => state.Contract == PortState.Unseen || state.Contract == first);
    }

    [Fact]
    public void LostReady_LeavesBothContractsPossible_UntilTheNextOne()
    {
        long first = Contract();
        long second = Sink(MessageKind.Request);
        Source(MessageKind.Accept);
        _states.Lose(fromSource: true, 1);
        _states.Contract.Should().BeNull();
        _states.States.ToArray().Select(state => state.Contract).Distinct().Should().BeEquivalentTo([first, second]);

        long third = Sink(MessageKind.Request);
        Source(MessageKind.Accept);
        Source(MessageKind.PSRDY);
        _states.Contract.Should().Be(third);
    }

    [Fact]
    public void LostEnterSucceeded_IsProvenByTheEprList()
    {
        Contract();
        Sink(MessageKind.EPRMode, EprModeAction.Enter);
        Source(MessageKind.EPRMode, EprModeAction.EnterAcknowledged);
        _states.Lose(fromSource: true, 1);
        _states.Mode.Should().BeNull();

        Source(MessageKind.EPRSourceCapabilities);
        _states.Mode.Should().Be(PowerMode.Epr);
    }

    [Fact]
    public void LostExit_IsProvenByTheRequest()
    {
        EnterEpr();
        _states.Lose(fromSource: false, 1);
        _states.Mode.Should().BeNull();

        Source(MessageKind.SourceCapabilities);
        _states.Mode.Should().Be(PowerMode.Spr, "in EPR mode it would have been asked for");
    }

    [Fact]
    public void ImproperRequest_ChangesNoMode_OnceTheSourceGoesOn()
    {
        EnterEpr();
        long request = Sink(MessageKind.Request);
        _states.Mode.Should().BeNull("the source's Exit may be missing");

        Source(MessageKind.Accept);
        _states.Should().BeEquivalentTo(new { Mode = PowerMode.Epr, Phase = Phase.Granted, Request = request });
    }

    [Fact]
    public void ManyLost_LeaveNothingKnown_UntilAReset()
    {
        Contract();
        _states.Lose(fromSource: true, 3);
        _states.Contract.Should().BeNull();
        _states.Mode.Should().BeNull();

        _states.Restart();
        _states.Should().BeEquivalentTo(new { Count = 1, Mode = PowerMode.Spr, Contract = 0L });
    }

    [Fact]
    public void MessageIdZero_MayBeginAnew()
    {
        long first = Contract();
        _states.OnMessage(new SaidMessage(MessageKind.SourceCapabilities, null, true, 99) { MayBeginAnew = true });

        _states.States.ToArray().Select(state => state.Contract).Should().BeEquivalentTo([first, PortState.NoContract]);
    }

    [Fact]
    public void SwapOfPower_EndsContractAndRoles()
    {
        Contract();
        Sink(MessageKind.PRSwap);
        Source(MessageKind.Accept);
        _states.Phase.Should().Be(Phase.Swapping);
        Source(MessageKind.PSRDY);
        Source(MessageKind.PSRDY);
        Source(MessageKind.SourceCapabilities);

        _states.Should().BeEquivalentTo(new { RolesSwapped = true, HasContract = false, Phase = Phase.Quiet });
    }

    // R3.2v1.1, 6.8.3: a Hard Reset keeps power roles; an attach makes them new.
    [Fact]
    public void HardReset_KeepsRoles_AndAnAttachDoesNot()
    {
        SwapOfPower_EndsContractAndRoles();

        _states.OnHardReset();
        _states.Should().BeEquivalentTo(new { RolesSwapped = true, HasContract = false, Mode = PowerMode.Spr, Count = 1 });
        Attach();
        _states.RolesSwapped.Should().BeFalse();
    }

    [Fact]
    public void HardResetInASwap_LeavesRolesOpen()
    {
        Contract();
        Sink(MessageKind.PRSwap);
        _states.OnHardReset();
        _states.RolesSwapped.Should().BeFalse("nobody had accepted");

        Contract();
        Sink(MessageKind.PRSwap);
        Source(MessageKind.Accept);
        _states.OnHardReset();
        _states.RolesSwapped.Should().BeNull();
    }

    // MessageID 0 is that of the new source's first message (6.7.1.1), and elsewhere of the first after an attach that may be missing.
    [Fact]
    public void ListWithMessageId0_EndsASwap_AndLaterMayFollowAnAttach()
    {
        Contract();
        Sink(MessageKind.PRSwap);
        Source(MessageKind.Accept);
        Source(MessageKind.PSRDY);
        Source(MessageKind.PSRDY);
        SaidMessage list = new(MessageKind.SourceCapabilities, null, true, 99) { MayBeginAnew = true };
        _states.OnMessage(list);
        _states.RolesSwapped.Should().BeTrue();

        _states.OnMessage(list with { Index = 100 });
        _states.RolesSwapped.Should().BeNull();
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void LostMessage_MayBeASwap_OnlyWhereRolesMaySwap(bool maySwap)
    {
        _states.OnDualRolePower(maySwap);
        Contract();
        for (int lost = 0; lost < 2; lost++)
        {
            _states.LoseOne();
        }

        _states.States.ToArray().Any(state => state.Phase is Phase.SwapAsked or Phase.Swapping).Should().Be(maySwap);
    }

    /// <summary>
    /// Any one message of a conversation that keeps the rules is taken out, its sender's next MessageID tells: the state of the whole
    /// conversation is always among the possible ones again.
    /// </summary>
    [Fact]
    public void WhatHappened_IsAlwaysAmongWhatMayHave()
    {
        (MessageKind Kind, EprModeAction? Action, bool FromSource)[] said =
        [
            (MessageKind.SourceCapabilities, null, true), (MessageKind.Request, null, false), (MessageKind.Accept, null, true), (MessageKind.PSRDY, null, true),
            (MessageKind.Request, null, false), (MessageKind.Reject, null, true), (MessageKind.DRSwap, null, false), (MessageKind.Accept, null, true),
            (MessageKind.Request, null, false), (MessageKind.Accept, null, true), (MessageKind.PSRDY, null, true), (MessageKind.EPRMode, EprModeAction.Enter, false),
            (MessageKind.EPRMode, EprModeAction.EnterAcknowledged, true), (MessageKind.EPRMode, EprModeAction.EnterSucceeded, true),
            (MessageKind.EPRSourceCapabilities, null, true), (MessageKind.EPRRequest, null, false), (MessageKind.Accept, null, true), (MessageKind.PSRDY, null, true),
            (MessageKind.VCONNSwap, null, false), (MessageKind.Accept, null, true), (MessageKind.PSRDY, null, true), (MessageKind.SoftReset, null, false),
            (MessageKind.Accept, null, true), (MessageKind.EPRMode, EprModeAction.Exit, false), (MessageKind.SourceCapabilities, null, true),
            (MessageKind.Request, null, false), (MessageKind.Accept, null, true), (MessageKind.PSRDY, null, true), (MessageKind.Request, null, false), (MessageKind.Wait, null, true),
        ];
        for (int missing = 1; missing < said.Length; missing++)
        {
            PossibleStates whole = new();
            PossibleStates seen = new();
            whole.Restart();
            seen.Restart();
            bool isTold = true;
            for (int i = 0; i < said.Length; i++)
            {
                (MessageKind kind, EprModeAction? action, bool fromSource) = said[i];
                SaidMessage message = new(kind, action, fromSource, i + 1) { GoesOn = true };
                whole.OnMessage(message);
                if (i == missing)
                {
                    isTold = false;
                    continue;
                }

                if (!isTold && fromSource == said[missing].FromSource)
                {
                    seen.Lose(fromSource, 1);
                    seen.OnMessage(message with { GoesOn = false });
                    isTold = true;
                }
                else
                {
                    seen.OnMessage(message);
                }

                if (isTold)
                {
                    PortState happened = whole.States[0];
                    seen.States.ToArray().Should().Contain(
                        state => IsOne(state, happened, missing + 1), $"{said[missing].Kind} (message {missing}) is missing, at message {i}");
                }
            }
        }
    }

    // A request that is missing stands as one that the capture does not show.
    private static bool IsOne(PortState state, PortState happened, long missing) =>
        state == happened with
        {
            Contract = happened.Contract == missing ? PortState.Unseen : happened.Contract,
            Request = happened.Request == missing ? PortState.Unseen : happened.Request,
        };

    private void Attach() => _states.Restart();

    private long Contract()
    {
        Attach();
        Source(MessageKind.SourceCapabilities);
        long request = Sink(MessageKind.Request);
        Source(MessageKind.Accept);
        Source(MessageKind.PSRDY);
        return request;
    }

    private void EnterEpr()
    {
        Contract();
        Sink(MessageKind.EPRMode, EprModeAction.Enter);
        Source(MessageKind.EPRMode, EprModeAction.EnterAcknowledged);
        Source(MessageKind.EPRMode, EprModeAction.EnterSucceeded);
        Source(MessageKind.EPRSourceCapabilities);
        _states.Mode.Should().Be(PowerMode.Epr);
    }

    private void Source(MessageKind kind, EprModeAction? action = null) => Say(kind, action, true);

    private long Sink(MessageKind kind, EprModeAction? action = null) => Say(kind, action, false);

    private long Say(MessageKind kind, EprModeAction? action, bool fromSource)
    {
        _states.OnMessage(new SaidMessage(kind, action, fromSource, ++_index) { GoesOn = true });
        return _index;
    }
}
