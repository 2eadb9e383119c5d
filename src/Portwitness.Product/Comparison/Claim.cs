using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Labels;
using Portwitness.Product.Offers;

namespace Portwitness.Product.Comparison;

/// <summary>What kind of statement a label makes.</summary>
public enum ClaimKind
{
    /// <summary>A single voltage with a current.</summary>
    Fixed,

    /// <summary>A range of voltage with a current.</summary>
    Range,

    /// <summary>A power.</summary>
    Power,

    /// <summary>A voltage and a current that a port takes.</summary>
    Input,

    /// <summary>What the cells hold, or what comes out of them.</summary>
    Battery,
}

/// <summary>How a claim and the offers compare.</summary>
public enum ClaimOutcome
{
    /// <summary>They agree.</summary>
    Agrees,

    /// <summary>Nothing that was offered is like it.</summary>
    NotAdvertised,

    /// <summary>The voltage is offered with another current.</summary>
    CurrentDiffers,

    /// <summary>Less power is offered than is printed.</summary>
    Less,

    /// <summary>More power is offered than is printed.</summary>
    More,

    /// <summary>The offers agree, but the port declares another power than is printed.</summary>
    DeclaredDiffers,

    /// <summary>The port asks for more current than is printed for its input.</summary>
    TakesMore,

    /// <summary>It is so when the ports are attached in the printed order, and not in another one.</summary>
    OtherOrder,

    /// <summary>A voltage is offered while ports are in use together that is not printed for them.</summary>
    OtherVoltage,

    /// <summary>Some of the ports are offered more together than is printed as the most.</summary>
    OverBudget,

    /// <summary>The port does not answer to the protocol that is printed for it.</summary>
    NotAnswered,

    /// <summary>Neither USB PD nor what the port answers to besides could give it.</summary>
    NothingBacks,

    /// <summary>No capture of that port under that arrangement.</summary>
    NotCaptured,
}

/// <summary>One printed statement held against what was captured.</summary>
public sealed record Claim
{
    /// <summary>What kind of statement.</summary>
    public required ClaimKind Kind { get; init; }

    /// <summary>The port as printed; empty for the product.</summary>
    public required string Port { get; init; }

    /// <summary>Where it is printed.</summary>
    public required Place At { get; init; }

    /// <summary>In plain words, for example "C1 gives 9 V 3 A".</summary>
    public required Phrase Text { get; init; }

    /// <summary>How it compares.</summary>
    public ClaimOutcome Outcome { get; init; } = ClaimOutcome.Agrees;

    /// <summary>Whether that settles it.</summary>
    public Verdict Verdict { get; init; } = Verdict.Holds;

    /// <summary>What was seen, or what is missing.</summary>
    public Phrase Evidence { get; init; } = Phrase.Empty;

    /// <summary>The printed value.</summary>
    public Phrase Printed { get; init; } = Phrase.Empty;

    /// <summary>The offered value.</summary>
    public Phrase Observed { get; init; } = Phrase.Empty;

    /// <summary>What would settle it.</summary>
    public Phrase NextStep { get; init; } = Phrase.Empty;

    /// <summary>Another protocol than USB PD may be meant, or is printed: a list of USB PD does not settle the claim.</summary>
    public bool MayBeOtherProtocol { get; init; }

    /// <summary>Position of the object that was compared.</summary>
    public int? Position { get; init; }

    /// <summary>The offer that was compared; null when there is none.</summary>
    public PortOffer? Offer { get; init; }

    /// <summary>The printed combination that states it; null for what is printed of a port alone, or of the product.</summary>
    public PrintedCombination? Combination { get; init; }

    internal Claim Fails(ClaimOutcome outcome, Phrase evidence) =>
        this with { Outcome = outcome, Verdict = Verdict.Fails, Evidence = evidence };

    internal Claim CannotTell(ClaimOutcome outcome, Phrase evidence, Phrase nextStep) =>
        this with { Outcome = outcome, Verdict = Verdict.CannotTell, Evidence = evidence, NextStep = nextStep, MayBeOtherProtocol = false };

    internal Claim CannotTell(ClaimOutcome outcome, Phrase evidence, OtherProtocolStep nextStep) =>
        CannotTell(outcome, evidence, nextStep.Text) with { MayBeOtherProtocol = true };
}
