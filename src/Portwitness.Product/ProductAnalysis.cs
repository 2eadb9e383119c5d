using System.Collections.Immutable;
using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Findings;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Rules;
using Portwitness.Analysis;
using Portwitness.Labels;
using Portwitness.Product.Arrangements;
using Portwitness.Product.Comparison;
using Portwitness.Product.Claims;
using Portwitness.Product.Controllers;
using Portwitness.Product.Decisions;
using Portwitness.Product.Energy;
using Portwitness.Product.Handling;
using Portwitness.Product.Loads;
using Portwitness.Product.Offers;
using Portwitness.Product.Pack;
using Portwitness.Product.Parts;
using Portwitness.Product.Signalling;
using Portwitness.Product.Soaks;
using Portwitness.Product.Teardown;

namespace Portwitness.Product;

/// <summary>Everything that was learned of one product.</summary>
public sealed record ProductAnalysis
{
    /// <summary>The product's name.</summary>
    public required string Product { get; init; }

    /// <summary>Which sample of it, as the product file says, or all captures that say it; empty otherwise.</summary>
    public required string Sample { get; init; }

    /// <summary>The version of its firmware, as the product file says; empty otherwise.</summary>
    public required string Firmware { get; init; }

    /// <summary>Whether it does what is printed and what the standard says.</summary>
    public required Verdict Verdict { get; init; }

    /// <summary>On what the verdict rests, to follow its word; empty when that is a label and captures.</summary>
    public required string VerdictBasis { get; init; }

    /// <summary>The label; null when none is given.</summary>
    public required Label? Label { get; init; }

    /// <summary>Its name where there are several; empty otherwise.</summary>
    public required string LabelName { get; init; }

    /// <summary>Further labels of the product, each with what it says.</summary>
    public required ImmutableArray<JudgedLabel> FurtherLabels { get; init; }

    /// <summary>Each printed statement with its verdict, in label order.</summary>
    public required ImmutableArray<Statement> Statements { get; init; }

    /// <summary>The captures in the order of the product file.</summary>
    public required ImmutableArray<CaptureAnalysis> Captures { get; init; }

    /// <summary>Ports together: arrangements, what happens when neighbours come and go, how power is shared.</summary>
    public required ProductArrangements Arrangements { get; init; }

    /// <summary>What ports answer to besides USB PD; empty where nothing was recorded.</summary>
    public required ImmutableArray<PortSignalling> Signalling { get; init; }

    /// <summary>Printed ratings that USB PD does not back, tied to what could.</summary>
    public required ImmutableArray<RatingBacking> Backings { get; init; }

    /// <summary>What was measured of the product's energy.</summary>
    public required ProductEnergy Energy { get; init; }

    /// <summary>Parts on the VBUS side, and the most that their nodes are offered.</summary>
    public required ImmutableArray<PartStress> Parts { get; init; }

    /// <summary>Port controllers with what is printed and offered at their ports.</summary>
    public required ImmutableArray<ControllerUse> Controllers { get; init; }

    /// <summary>What is reckoned of a power pack's build; null when nothing is stated of it.</summary>
    public required PackFigures? Pack { get; init; }

    /// <summary>What a box or a page says beyond the label, each with its verdict.</summary>
    public required ImmutableArray<JudgedClaim> Claims { get; init; }

    /// <summary>What ports' voltages do between two loads.</summary>
    public required ImmutableArray<LoadLine> LoadLines { get; init; }

    /// <summary>Cables that were measured at both ends.</summary>
    public required ImmutableArray<CableLoss> Cables { get; init; }

    /// <summary>Loads that were held for long.</summary>
    public required ImmutableArray<Soak> Soaks { get; init; }

    /// <summary>Ports under load.</summary>
    public required ImmutableArray<LoadEvidence> Loads { get; init; }

    /// <summary>The day on which the product was opened; null where it is not stated.</summary>
    public required DateOnly? Opened { get; init; }

    /// <summary>How readings near their limits were decided.</summary>
    public required DecisionRule Decision { get; init; }

    /// <summary>What was measured and has limits, with its uncertainty.</summary>
    public required ImmutableArray<MeasuredDecision> Decisions { get; init; }

    /// <summary>What was read while some ports took power.</summary>
    public required ImmutableArray<PassThrough> PassThrough { get; init; }

    /// <summary>What is known of rules about carrying it; null where no day is stated.</summary>
    public required TravelCard? Travel { get; init; }

    /// <summary>In which state it is.</summary>
    public required ProductState State { get; init; }

    /// <summary>What was taken before and after it was opened, in sentences.</summary>
    public required ImmutableArray<string> Opening { get; init; }

    /// <summary>The ledger of a teardown.</summary>
    public required ImmutableArray<LedgerEntry> Teardown { get; init; }

    /// <summary>Functions that such a product has as a rule, and how far the ledger accounts for them; empty without a ledger.</summary>
    public required ImmutableArray<FunctionCheck> FunctionChecks { get; init; }

    /// <summary>What ports offered under each arrangement.</summary>
    public required ImmutableArray<PortOffer> Offers { get; init; }

    /// <summary>The rules that were applied.</summary>
    public required RuleSelection Rules { get; init; }

    /// <summary>All findings, the gravest first.</summary>
    public required ImmutableArray<Finding> Findings { get; init; }

    /// <summary>What could not be used, each with its file.</summary>
    public required ImmutableArray<FileFault> Faults { get; init; }

    /// <summary>What to capture or to state next.</summary>
    public required ImmutableArray<Phrase> NextSteps { get; init; }

    /// <summary>Safety and scope.</summary>
    public required ImmutableArray<string> Cautions { get; init; }

    /// <summary>Nothing could be judged: the product file cannot be understood, every capture is unusable, or there is nothing to judge.</summary>
    public required bool Unusable { get; init; }
}

/// <summary>One printed claim and whether the evidence bears it out.</summary>
/// <param name="At">Where it is printed.</param>
/// <param name="Port">The port concerned; empty for the product.</param>
/// <param name="Claim">In plain words.</param>
/// <param name="Verdict">Holds, fails, or cannot tell.</param>
/// <param name="Evidence">What was seen, or what is missing.</param>
/// <param name="NextStep">What to do when it cannot be told; otherwise empty.</param>
public sealed record Statement(
    Place At, string Port, Phrase Claim, Verdict Verdict, Phrase Evidence, Phrase NextStep);

/// <summary>A fault and the file that it is in.</summary>
/// <param name="File">The file's name as given.</param>
/// <param name="Fault">The place and the remedy.</param>
public sealed record FileFault(string File, Captures.CaptureFault Fault);
