using System.Collections.Immutable;
using Portwitness.Analysis.Bench;
using Portwitness.Analysis.Conversation;
using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Findings;
using Portwitness.Analysis.Measuring;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Plots;
using Portwitness.Analysis.Profile;
using Portwitness.Analysis.Rules;
using Portwitness.Captures;
using Portwitness.Following.Contracts;
using Portwitness.PowerDelivery.Limits;

namespace Portwitness.Analysis;

/// <summary>What one capture holds and what is wrong with it.</summary>
public sealed record CaptureAnalysis
{
    /// <summary>The name given for reports.</summary>
    public required string File { get; init; }

    /// <summary>Whether the lists were typed, off a display for example.</summary>
    public bool IsTyped { get; init; }

    /// <summary>By its name in captures/FORMAT.md; null when no format was recognised: the input is unusable.</summary>
    public required string? Format { get; init; }

    /// <summary>The port; empty when not known.</summary>
    public required string Port { get; init; }

    /// <summary>Ports in use in attach order; empty when not known.</summary>
    public required ImmutableArray<string> Arrangement { get; init; }

    /// <summary>Editions that the evidence leaves open.</summary>
    public required Editions Editions { get; init; }

    /// <summary>The cable, in words.</summary>
    public required string Cable { get; init; }

    /// <summary>The cable, as rules use it.</summary>
    public required CableEvidence CableEvidence { get; init; }

    /// <summary>Where and how exactly it measures.</summary>
    public required Instrument Instrument { get; init; }

    /// <summary>Capability lists in order, repeats folded.</summary>
    public required ImmutableArray<Advertisement> Advertisements { get; init; }

    /// <summary>The conversation in lines for people.</summary>
    public required ImmutableArray<TimelineEntry> Timeline { get; init; }

    /// <summary>What port, partner and cable say of themselves, each with its message.</summary>
    public required ImmutableArray<PortFact> Facts { get; init; }

    /// <summary>The message that was to be explained; null when none was, or the capture has no such message.</summary>
    public required ExplainedMessage? Explanation { get; init; }

    /// <summary>Requests and what became of them.</summary>
    public required ImmutableArray<ContractAttempt> Contracts { get; init; }

    /// <summary>Whether an explicit contract was reached.</summary>
    public required bool AnyContract { get; init; }

    /// <summary>The port's Source_Info messages in order.</summary>
    public required ImmutableArray<SourceInfoStatement> Infos { get; init; }

    /// <summary>What happened at the bench: ports in use, attaches, interruptions of VBUS, other signalling.</summary>
    public required BenchRecord Bench { get; init; }

    /// <summary>Which sample of the product the header says it is; empty when it does not.</summary>
    public required string Sample { get; init; }

    /// <summary>VBUS and IBUS, thinned out for a plot.</summary>
    public required ImmutableArray<TraceSpan> Trace { get; init; }

    /// <summary>The rules that were applied.</summary>
    public required RuleSelection Rules { get; init; }

    /// <summary>What is wrong.</summary>
    public required ImmutableArray<Finding> Findings { get; init; }

    /// <summary>What could not be read.</summary>
    public required ImmutableArray<CaptureFault> Faults { get; init; }

    /// <summary>A format was recognised, and not everything in it was faulty.</summary>
    public bool IsUsable => Format is not null && (MessageCount > 0 || Faults.IsEmpty);

    /// <summary>Messages read.</summary>
    public required long MessageCount { get; init; }

    /// <summary>What to capture next.</summary>
    public required ImmutableArray<Phrase> NextSteps { get; init; }
}
