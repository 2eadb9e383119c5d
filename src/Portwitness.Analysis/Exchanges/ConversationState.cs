using Portwitness.Analysis.Conversation;
using Portwitness.Analysis.Profile;
using Portwitness.Analysis.Rules;
using Portwitness.Following;
using Portwitness.PowerDelivery.Requests;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Analysis.Exchanges;

/// <summary>What is known of the conversation so far; rules read it and say what they suspect.</summary>
internal sealed class ConversationState(CaptureContext context, SuspicionLog log)
{
    private OfferedObject? _granted;

    /// <summary>Facts, lists and contracts.</summary>
    public CaptureContext Context => context;

    /// <summary>Index of the last message.</summary>
    public long Index { get; set; }

    /// <summary>The capture is a log of software: no GoodCRCs, and one side's view.</summary>
    public bool IsOfSoftware => context.Track.Clock.IsSoftware;

    /// <summary>The states that the ports may be in.</summary>
    public PossibleStates States => context.Track.States;

    /// <summary>Whether the mode, SPR or EPR, is known: the capture shows the attach, a Hard Reset, the change, or what only one mode has.</summary>
    public bool ModeIsKnown => context.Track.Mode is not null;

    /// <summary>The explicit contract's object; null without one, and when it is not known.</summary>
    public OfferedObject? Granted => ContractInForce is null ? null : _granted;

    /// <summary>The object that PS_RDY granted last; null when it is not known.</summary>
    public OfferedObject? LastGranted => _granted;

    /// <summary>Voltage of the contract in force; null where it has none or is not known.</summary>
    public Voltage? GrantedVoltage => ContractInForce?.Voltage;

    /// <summary>EPR mode, as far as the capture shows.</summary>
    public bool IsEpr => context.Track.Mode == PowerMode.Epr;

    /// <summary>Whether an explicit contract is in force.</summary>
    public bool HasContract => States.HasContract == true;

    /// <summary>Power roles were swapped, or may have been: the source of now may be the test device.</summary>
    public bool RolesWereSwapped => States.RolesSwapped != false || States.Phase is Phase.Swapping;

    /// <summary>What the source, and the sink, owe each other on SOP; by who asked: 0 the sink, 1 the source.</summary>
    public Exchange[] Exchanges { get; } = [new(), new()];

    /// <summary>What was said last on SOP.</summary>
    public Delivery? Last { get; set; }

    /// <summary>Hard Resets since the last explicit contract.</summary>
    public int ResetsInARow { get; set; }

    /// <summary>Source_Capabilities so far, and those of them that were acknowledged.</summary>
    public (long All, long Acknowledged) Lists { get; set; }

    /// <summary>Whether a sink ever asked for power.</summary>
    public bool AnyRequest { get; set; }

    /// <summary>Which end of SOP has been heard since the attach or reset: 0 the sink, 1 the source.</summary>
    public bool[] IsAlive { get; } = new bool[2];

    /// <summary>Time of the first acknowledged list that no request has followed; -1 when there is none.</summary>
    public long UnansweredListUs { get; set; } = -1;

    /// <summary>Time of the last record.</summary>
    public long NowUs { get; set; }

    /// <summary>When the capture was last found to miss a message on SOP; what may have changed before then is in doubt.</summary>
    public long LostUs { get; set; } = long.MinValue / 2;

    /// <summary>The last attach or Hard Reset; -1 when the capture shows none.</summary>
    public long RestartedUs { get; set; } = -1;

    /// <summary>When the last capability list of the source came; -1 before the first.</summary>
    public long ListUs { get; set; } = -1;

    /// <summary>The last request, word and time; null when there was none, or its word was not shown whole.</summary>
    public (RequestObject Word, long TimeUs)? Requested { get; set; }

    /// <summary>The request that PS_RDY granted last; null before one, and when its word was not shown whole.</summary>
    public (RequestObject Word, long TimeUs)? GrantedRequest { get; set; }

    /// <summary>Which end is DFP.</summary>
    public DataRoles DataRoles { get; } = new();

    /// <summary>Whether the capture is not known to miss anything on SOP since a moment; a moment of -1 never came.</summary>
    public bool MissesNothingSince(long timeUs) => timeUs >= 0 && LostUs < timeUs;

    /// <summary>PS_RDY: what was requested is in force.</summary>
    public void Grant()
    {
        ResetsInARow = 0;
        ContractAttempt? granted = context.Contracts.Granted;
        int position = granted?.ObjectPosition ?? 0;
        bool isKnown = position >= 1 && position <= context.Contracts.InForce.Length
            && context.Contracts.InForce[position - 1].KindIsKnown;
        _granted = isKnown ? context.Contracts.InForce[position - 1] : null;
        GrantedRequest = Requested;
    }

    /// <summary>Everything begins anew.</summary>
    public void Forget()
    {
        (_granted, Last) = (null, null);
        (Requested, GrantedRequest, ListUs) = (null, null, -1);
        (IsAlive[0], IsAlive[1]) = (false, false);
    }

    // The contract in force, when every possible state has the same one, and the capture shows its request.
    private ContractAttempt? ContractInForce =>
        States.Contract is { } index and > PortState.NoContract && context.Contracts.GrantedIndex == index ? context.Contracts.Granted : null;

    /// <summary>Who sent it, if that can be told.</summary>
    public Party PartyOf(in Delivery delivery) => RolesWereSwapped ? Party.Unsure : delivery.Sender;

    /// <summary>Who owes the answer.</summary>
    public Party Other(in Delivery delivery) => PartyOf(delivery) switch
    {
        Party.Source => Party.Sink,
        Party.Sink => Party.Source,
        _ => delivery.Sop != PowerDelivery.Framing.SopKind.Sop && !delivery.FromSourceOrPlug ? Party.CablePlug : Party.Unsure,
    };

    /// <summary>Whether one more case of a rule is worth being looked at.</summary>
    public bool Wants(Rule rule, Party party) => log.Wants(rule, party, NowUs);

    /// <summary>Takes what a rule suspects.</summary>
    public void Suspect(Suspicion suspicion) => log.Add(suspicion);

    /// <summary>Says something that needs no proof.</summary>
    public void Report(Rule rule, in Hit hit, long timeUs, long index)
    {
        context.FindAt(timeUs, index);
        context.Findings.Report(rule, hit);
    }
}
