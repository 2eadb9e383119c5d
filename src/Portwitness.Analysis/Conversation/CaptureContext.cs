using System.Collections.Immutable;
using Portwitness.Analysis.Catalogue;
using Portwitness.Analysis.Findings;
using Portwitness.Analysis.Measuring;
using Portwitness.Analysis.Profile;
using Portwitness.Captures;
using Portwitness.Following.Contracts;
using Portwitness.Following.States;
using Portwitness.Labels;

namespace Portwitness.Analysis.Conversation;

/// <summary>What is known of a capture so far, shared by all that follow it.</summary>
internal sealed class CaptureContext(CaptureOptions options)
{
    private CapabilityLists? _lists;
    private BenchFollower? _bench;
    private ForewarningFollower? _forewarnings;
    private ConversationTrack? _track;
    private PortRole? _role;
    private ContractTracker? _contracts;
    private Instrument? _instrument;

    /// <summary>What the user stated.</summary>
    public CaptureOptions Options => options;

    /// <summary>The rules to apply.</summary>
    public RuleSet Rules => options.Rules;

    /// <summary>The capture's header; null before it, and when there is none.</summary>
    public CaptureHeader? Header { get; set; }

    /// <summary>How the capture measures, by its header; asked for when the first measurement or message has come.</summary>
    public Instrument Instrument => _instrument ??= new Instrument(Header?.MeasuredAt ?? MeasuringPoint.Unknown, Header?.Accuracy, Header?.ResolutionUs);

    /// <summary>The captured port; empty when not known.</summary>
    public string Port { get; set; } = options.Port ?? "";

    /// <summary>Edition, cable and ratings.</summary>
    public PortFacts Facts { get; } = new(new PortStatement(options.Edition, options.CaptiveCable == true, options.PrintedPdp, options.Sharing));

    /// <summary>What the ports say, and the states that they may be in.</summary>
    public ConversationTrack Track => _track ??= new ConversationTrack();

    /// <summary>Requests and contracts, the list in force, SPR or EPR mode.</summary>
    public ContractTracker Contracts => _contracts ??= new ContractTracker(Track);

    /// <summary>The capability lists of both sides.</summary>
    public CapabilityLists Lists => _lists ??= new CapabilityLists(this);

    /// <summary>Which messages are the captured port's.</summary>
    public PortRole Role => _role ??= new PortRole(Track);

    /// <summary>Which ports are in use.</summary>
    public Arrangement Arrangement { get; } = new();

    /// <summary>The port's Source_Info messages.</summary>
    public List<SourceInfoStatement> Infos { get; } = [];

    /// <summary>What happens at the bench.</summary>
    public BenchFollower Bench => _bench ??= new BenchFollower(this);

    /// <summary>What came before lists of the port and may say why they changed.</summary>
    public ForewarningFollower Forewarnings => _forewarnings ??= new ForewarningFollower(this);

    /// <summary>VBUS and IBUS for a plot.</summary>
    public TraceFollower Trace { get; } = new();

    /// <summary>Where VBUS left its contract.</summary>
    public InterruptionTracker Interruptions { get; } = new();

    /// <summary>Where findings go.</summary>
    public FindingLog Findings { get; } = new() { File = options.File };

    /// <summary>Something was attached to the captured port, or detached from it; not from one of its neighbours.</summary>
    public bool IsOwnAttachOrDetach(EventRecord happened) => happened.Name is CaptureEvents.Attach or CaptureEvents.Detach
        && (happened.Port is null || PortNames.Same(happened.Port, Port));

    /// <summary>Makes a place of the capture, as it is now, the place of the findings that follow.</summary>
    public void FindAt(long timeUs, long messageIndex) => FindAt(timeUs, messageIndex, Arrangement.InUse);

    /// <summary>Makes an earlier place of the capture the place of the findings that follow.</summary>
    public void FindAt(long timeUs, long messageIndex, ImmutableArray<string> inUse)
    {
        (Findings.TimeUs, Findings.MessageIndex) = (timeUs, messageIndex);
        (Findings.Port, Findings.Arrangement) = (Port, inUse);
    }
}
