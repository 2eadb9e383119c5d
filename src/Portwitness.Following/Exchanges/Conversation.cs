using Portwitness.Following.Contracts;
using Portwitness.Following.Links;
using Portwitness.Following.States;
using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.PowerDelivery.Requests;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Following.Exchanges;

/// <summary>What is known of a conversation after the last record.</summary>
/// <param name="track">Links and possible states.</param>
/// <param name="contracts">Requests, contracts and the list in force.</param>
public class Conversation(ConversationTrack track, ContractTracker contracts)
{
    private OfferedObject? _granted;
    private KeptDelivery _last;

    /// <summary>Links and possible states.</summary>
    public ConversationTrack Track => track;

    /// <summary>Requests, contracts and the list in force.</summary>
    public ContractTracker Contracts => contracts;

    /// <summary>Index of the last message.</summary>
    public long Index { get; internal set; }

    /// <summary>The capture is a log of software: no GoodCRCs, and one side's view.</summary>
    public bool IsOfSoftware => track.Clock.IsSoftware;

    /// <summary>The states that the ports may be in.</summary>
    public PossibleStates States => track.States;

    /// <summary>Whether the mode, SPR or EPR, is known: the capture shows the attach, a Hard Reset, the change, or what only one mode has.</summary>
    public bool ModeIsKnown => track.Mode is not null;

    /// <summary>EPR mode, as far as the capture shows.</summary>
    public bool IsEpr => track.Mode == PowerMode.Epr;

    /// <summary>The explicit contract's object; null without one, and when it is not known.</summary>
    public OfferedObject? Granted => ShowsContractInForce ? _granted : null;

    /// <summary>The object that PS_RDY granted last; null when it is not known.</summary>
    public OfferedObject? LastGranted => _granted;

    /// <summary>Voltage of the contract in force; null where it has none or is not known.</summary>
    public Voltage? GrantedVoltage => ShowsContractInForce ? contracts.Granted?.Voltage : null;

    /// <summary>Whether an explicit contract is in force.</summary>
    public bool HasContract => States.HasContract == true;

    /// <summary>Power roles were swapped, or may have been: the source of now may be the test device.</summary>
    public bool RolesWereSwapped => States.RolesSwapped != false || States.Phase is Phase.Swapping;

    /// <summary>What the source, and the sink, owe each other on SOP; by who asked: 0 the sink, 1 the source.</summary>
    public Exchange[] Exchanges { get; } = [new(), new()];

    /// <summary>Whether anything was said on SOP since an attach or a reset.</summary>
    public bool HasSpoken => _last.IsKept;

    /// <summary>What was said last on SOP, while <see cref="HasSpoken"/>.</summary>
    public ref readonly Delivery Last => ref _last.Value;

    /// <summary>Hard Resets since the last explicit contract.</summary>
    public int ResetsInARow { get; internal set; }

    /// <summary>Source_Capabilities so far, and those of them that were acknowledged.</summary>
    public (long All, long Acknowledged) Lists { get; internal set; }

    /// <summary>Whether a sink ever asked for power.</summary>
    public bool AnyRequest { get; internal set; }

    /// <summary>Which end of SOP has been heard since the attach or reset: 0 the sink, 1 the source.</summary>
    public bool[] IsAlive { get; } = new bool[2];

    /// <summary>When each end of SOP last said something since then: 0 the sink, 1 the source; -1 when it did not.</summary>
    public long[] SaidUs { get; } = [-1, -1];

    /// <summary>Time of the first acknowledged list that no request has followed; -1 when there is none.</summary>
    public long UnansweredListUs { get; internal set; } = -1;

    /// <summary>Time of the last record.</summary>
    public long NowUs { get; internal set; }

    /// <summary>When the capture was last found to miss a message on SOP; what may have changed before then is in doubt.</summary>
    public long LostUs { get; internal set; } = long.MinValue / 2;

    /// <summary>The last attach or Hard Reset; -1 when the capture shows none.</summary>
    public long RestartedUs { get; internal set; } = -1;

    /// <summary>When the last capability list of the source came; -1 before the first.</summary>
    public long ListUs { get; internal set; } = -1;

    /// <summary>The last request, word and time; null when there was none, or its word was not shown whole.</summary>
    public (RequestObject Word, long TimeUs)? Requested { get; internal set; }

    /// <summary>The request that PS_RDY granted last; null before one, and when its word was not shown whole.</summary>
    public (RequestObject Word, long TimeUs)? GrantedRequest { get; internal set; }

    /// <summary>Which end is DFP.</summary>
    public DataRoles DataRoles { get; } = new();

    // Whether every possible state has the same contract in force, and the capture shows its request.
    private bool ShowsContractInForce =>
        States.Contract is { } index and > PortState.NoContract && contracts.GrantedIndex == index && contracts.IsGranted;

    /// <summary>Whether the capture is not known to miss anything on SOP since a moment; a moment of -1 never came.</summary>
    public bool MissesNothingSince(long timeUs) => timeUs >= 0 && LostUs < timeUs;

    /// <summary>Who sent it, if that can be told.</summary>
    public Party PartyOf(in Delivery delivery) => RolesWereSwapped ? Party.Unsure : delivery.Sender;

    /// <summary>Who owes the answer.</summary>
    public Party Other(in Delivery delivery) => PartyOf(delivery) switch
    {
        Party.Source => Party.Sink,
        Party.Sink => Party.Source,
        _ => delivery.Sop != SopKind.Sop && !delivery.FromSourceOrPlug ? Party.CablePlug : Party.Unsure,
    };

    // It was said, acknowledged or sent again.
    internal void Say(in Delivery delivery) => _last.Keep(delivery);

    internal void Update(in Delivery delivery) => _last.Update(delivery);

    // PS_RDY: what was requested is in force.
    internal void Grant()
    {
        ResetsInARow = 0;
        int position = contracts.GrantedPosition;
        bool isKnown = position >= 1 && position <= contracts.InForce.Length && contracts.InForce[position - 1].KindIsKnown;
        _granted = isKnown ? contracts.InForce[position - 1] : null;
        GrantedRequest = Requested;
    }

    // An attach, a Hard Reset or a power role swap: nothing of before holds.
    internal void Forget()
    {
        _granted = null;
        _last.Forget();
        (Requested, GrantedRequest, ListUs) = (null, null, -1);
        (IsAlive[0], IsAlive[1]) = (false, false);
        (SaidUs[0], SaidUs[1]) = (-1, -1);
    }
}
