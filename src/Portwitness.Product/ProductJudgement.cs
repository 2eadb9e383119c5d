using System.Collections.Immutable;
using Portwitness.Analysis;
using Portwitness.Analysis.Catalogue;
using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Findings;
using Portwitness.Analysis.Phrases;
using Portwitness.Captures;
using Portwitness.Labels;
using Portwitness.PowerDelivery.Units;
using Portwitness.Product.Arrangements;
using Portwitness.Product.Claims;
using Portwitness.Product.Comparison;
using Portwitness.Product.Controllers;
using Portwitness.Product.Converters;
using Portwitness.Product.Decisions;
using Portwitness.Product.Energy;
using Portwitness.Product.Handling;
using Portwitness.Product.Loads;
using Portwitness.Product.Offers;
using Portwitness.Product.Pack;
using Portwitness.Product.Parts;
using Portwitness.Product.Rules;
using Portwitness.Product.Rules.Arrangements;
using Portwitness.Product.Rules.Energy;
using Portwitness.Product.Rules.Labels;
using Portwitness.Product.Rules.Parts;
using Portwitness.Product.Signalling;
using Portwitness.Product.Soaks;
using Portwitness.Product.Teardown;

namespace Portwitness.Product;

/// <summary>Brings label and captures together into one verdict.</summary>
internal static class ProductJudgement
{
    // A label has some dozens; what a hostile one has beyond these is judged and counted, but not listed.
    private const int MaxStatements = 1000;
    private const int MaxUnreadSteps = 20;
    private const int MaxOffers = 2_000;

    private static readonly ImmutableArray<string> Cautions =
    [
        "This is a pre-check from captures and a label, not a certification. Local electrical codes, transport rules and "
            + "licensed practice come before it.",
        "Printed mains inputs, AC outputs and pads are read and judged from the label alone.",
        "One sample says nothing about a production lot; state sample, date, cable, load and attach order with the result.",
        "Do not open mains adapters, and do not test swollen, wet, hot or damaged packs. Above 20 V unplug without load: "
            + "contacts arc.",
    ];

    public static ProductAnalysis Of(
        string file, ProductFile product, Label? label, IReadOnlyList<(string Name, Label Label)> labels, IReadOnlyList<CaptureAnalysis> recorded,
        IReadOnlyList<MeasuredLog> logs, IReadOnlyList<FileFault> faults, PowerSharing sharing, RuleSet rules, DecisionRule decision, IReadOnlyList<string> missing)
    {
        // As the label names it where it does.
        string Named(string port) => label?.FindOutput(port)?.Port ?? port;

        ImmutableArray<CaptureAnalysis> captures = SharedClock.Join(recorded, ClockLinks(product));
        List<PortOffer> offers =
        [
            .. captures.SelectMany(capture => PortOffers.Of(capture, Named, sharing != PowerSharing.None))
                .OrderBy(static offer => offer.AfterDetach).ThenBy(static offer => offer.List.Evidence),
        ];
        int offersLeft = offers.Count - MaxOffers;
        offers.RemoveRange(Math.Min(offers.Count, MaxOffers), Math.Max(0, offersLeft));
        string[] uncheckedFiles = UncheckedOffers.FilesOf(offers);
        ProductArrangements arrangements = ProductArrangements.Of(label, captures, offers, Named);
        ImmutableArray<PortSignalling> signalling = PortSignalling.Of(product.Signalling, file, captures, Named);
        ProductEnergy energy = new(label, CellEnergy.Of(product.Cells, label), [.. logs.Where(static log => log.IsUsable)], product.Adapter)
        {
            Readings = product.Loads, Decision = decision, File = file,
        };
        ImmutableArray<LoadEvidence> loads = LoadEvidence.Of(product.Loads, logs.Where(static log => log.IsUsable), Named, decision);
        List<Finding> findings = [.. RepeatedFindings.Fold(captures.SelectMany(static capture => capture.Findings))];
        ImmutableArray<Statement> statements = [];
        long unlisted = 0;
        if (label is not null)
        {
            LabelComparison comparison = LabelComparison.Of(label, offers, PortIntake.Of(label, captures), signalling, energy, product.Cells);
            comparison = comparison with { Claims = LoadedRatings.Tie(label, comparison.Claims, loads) };
            arrangements = arrangements with { Comparison = comparison };
            LabelFindings found = new(label);
            foreach (LabelRule rule in rules.OfType<LabelRule>())
            {
                rule.Check(comparison, found);
            }

            findings.AddRange(found.Findings);
            unlisted = found.Unlisted;
            statements = ContradictedStatements.Of(comparison);
        }

        // Stated cells say something without a label, too.
        LabelFindings printed = LabelFindings.Of(arrangements.Comparison?.WithoutSettled() ?? new Label { Text = "" }, rules, product.Cells);
        findings.AddRange(printed.Findings);
        unlisted += printed.Unlisted;

        ProductFindings beside = new(label, uncheckedFiles);
        foreach (ArrangementRule rule in rules.OfType<ArrangementRule>())
        {
            rule.Check(arrangements, beside);
        }

        findings.AddRange(RepeatedFindings.Fold(beside.Findings));
        ProductFindings together = new(label, uncheckedFiles);
        foreach (EnergyRule rule in rules.OfType<EnergyRule>())
        {
            rule.Check(energy, together);
        }

        ImmutableArray<PartStress> parts = PartStress.Of(product.Parts, offers, label, product.Pack);
        foreach (PartRule rule in rules.OfType<PartRule>())
        {
            foreach (PartStress part in parts)
            {
                rule.Check(part, part.Part.IsInferred ? new InferredHits(part.Part.Name, together) : together);
            }
        }

        ImmutableArray<ControllerUse> controllers = ControllerUse.Of(product.Controllers, label, offers, signalling);
        foreach (ControllerRule rule in rules.OfType<ControllerRule>())
        {
            foreach (ControllerUse use in controllers)
            {
                rule.Check(use, together);
            }
        }

        ConverterUse[] converters = [.. product.Converters.Select(converter => new ConverterUse(converter, label, loads, [.. offers]))];
        foreach (ConverterRule rule in rules.OfType<ConverterRule>())
        {
            foreach (ConverterUse use in converters)
            {
                rule.Check(use, together);
            }
        }

        PackFigures? pack = product.Pack is { } build
            ? new PackFigures(build, energy.Cells, label, offers.Count == 0 ? null : Power.FromMilliwatts(offers.Max(static offer => offer.MostPowerMilliwatts)))
            : null;
        foreach (PackRule rule in pack is null ? [] : rules.OfType<PackRule>())
        {
            rule.Check(pack!, together);
        }

        ImmutableArray<JudgedClaim> claims = new ClaimEvidence(energy, product.Pack, label, offers).All(product.Claims);
        foreach (BeyondLabelRule rule in rules.OfType<BeyondLabelRule>())
        {
            foreach (JudgedClaim claim in claims)
            {
                rule.Check(claim, together);
            }
        }

        ImmutableArray<CableLoss> cables = CableLoss.Of(loads);
        foreach (CableLossRule rule in rules.OfType<CableLossRule>())
        {
            foreach (CableLoss cable in cables)
            {
                rule.Check(cable, together);
            }
        }

        ImmutableArray<Soak> soaks = Soak.Of(energy, captures, product.Touch);
        foreach (SoakRule rule in rules.OfType<SoakRule>())
        {
            foreach (Soak soak in soaks)
            {
                rule.Check(soak, together);
            }
        }

        ImmutableArray<MeasuredDecision> decisions = MeasuredDecisions.Of(captures, loads, energy, Named);
        foreach (MeasuredDecisionRule rule in rules.OfType<MeasuredDecisionRule>())
        {
            foreach (MeasuredDecision measured in decisions)
            {
                rule.Check(measured, decision, together);
            }
        }

        findings.AddRange(together.Findings);
        statements = label is null ? statements : ContradictedStatements.With(label, statements, findings);
        FurtherLabels further = new(product, offers, captures, energy.Logs, signalling, rules, decision);
        if (labels.Count > 0)
        {
            findings = [.. findings.Select(finding => finding.LabelLine is null ? finding : finding with { Label = product.LabelName })];
            foreach ((string name, Label one) in labels)
            {
                further.Add(name, one);
            }

            further.Compare(label is null ? labels : [(product.LabelName, label), .. labels]);
            findings.AddRange(further.Findings);
            unlisted += further.Unlisted;
        }

        bool anyCapture = captures.Any(static capture => capture.IsUsable);
        bool unusable = faults.Any(static fault => ProductFaultCodes.IsFatal(fault.Fault.Code))
            || (!anyCapture && energy.Logs.IsEmpty && energy.Readings.IsEmpty && product.PassThrough.IsEmpty && energy.Adapter.IsEmpty
                && (product.NamesCaptures || (label is null && product.Cells is null && parts.IsEmpty && controllers.IsEmpty && product.Teardown.IsEmpty)));
        Statement[] all = [.. statements, .. further.Labels.SelectMany(static one => one.Statements)];
        IEnumerable<Label> read = labels.Select(static one => one.Label).Concat(label is null ? [] : [label]);
        Verdict verdict = Judge(findings, all, read, captures, faults, missing.Count > 0 || unusable || uncheckedFiles.Length > 0, !loads.IsEmpty);
        return new ProductAnalysis
        {
            Product = product.Product,
            Sample = product.Sample.Length > 0 ? product.Sample : SampleOf(captures),
            Firmware = product.Firmware,
            Verdict = verdict,
            VerdictBasis = unusable ? "" : VerdictBasis.Of(
                verdict, product, label, energy, anyCapture, [.. missing, .. captures.Where(static capture => !capture.IsUsable).Select(static capture => capture.File)]),
            Rules = rules.Selection,
            Label = label,
            LabelName = product.LabelName,
            FurtherLabels = further.Labels,
            Statements = [.. statements.Take(MaxStatements)],
            Captures = captures,
            Arrangements = arrangements,
            Signalling = signalling,
            Energy = energy,
            Parts = parts,
            Controllers = controllers,
            Pack = pack,
            Claims = claims,
            Loads = loads,
            LoadLines = LoadLine.Of(loads),
            Cables = cables,
            Soaks = soaks,
            Opened = product.Opened,
            Decision = decision,
            Decisions = decisions,
            PassThrough = PassThrough.Of(product.PassThrough),
            Travel = product.TravelAsOf is { } day ? TravelCard.Of(day, product.Marks, energy.Cells) : null,
            State = product.State,
            Opening = OpeningRemarks.Of(product, captures),
            Teardown = product.Teardown,
            FunctionChecks = FunctionCheck.Of(
                product.Teardown, product.Pack is not null || product.Cells is not null || label?.Battery is not null, product.Pack, PortsOf(label, offers), product.Parts),
            Backings = arrangements.Comparison?.Backings ?? [],
            Offers = [.. offers],
            Findings = [.. findings.OrderBy(finding => finding.Severity).ThenBy(finding => finding.LabelLine ?? 0)],
            Faults =
            [
                .. faults,
                .. NotListed(file, unlisted, "findings about the label", BoundedFindings.MaxPerRule),
                .. NotListed(file, beside.Unlisted + together.Unlisted, "findings about the product", BoundedFindings.MaxPerRule),
                .. NotListed(file, offersLeft, "offers of ports", MaxOffers),
                .. NotListed(file, statements.Length - MaxStatements, "printed statements", MaxStatements),
            ],
            NextSteps =
            [
                .. PortQuestions.Of(label, product, captures), .. PortQuestions.Between(product.LabelName, label, labels),
                .. NextSteps(findings, all, label, product, !loads.IsEmpty),
            ],
            Cautions = Cautions,
            Unusable = unusable,
        };
    }

    private static string[] PortsOf(Label? label, IEnumerable<PortOffer> offers) =>
    [
        .. (label?.Outputs.Where(static output => output.Alternating.IsEmpty).Select(static output => output.Port) ?? []).Concat(offers.Select(static offer => offer.Port))
            .DistinctBy(PortNames.Key),
    ];

    private static IEnumerable<ClockLink> ClockLinks(ProductFile product) =>
        product.Captures.Where(static capture => capture.With is not null)
            .Select(static capture => new ClockLink(capture.File, capture.With!, capture.OffsetUs));

    // Captures of different samples are no single one.
    private static string SampleOf(IReadOnlyList<CaptureAnalysis> captures)
    {
        string[] stated = [.. captures.Select(static capture => capture.Sample).Where(static sample => sample.Length > 0).Distinct()];
        return stated.Length == 1 ? stated[0] : "";
    }

    // A fault in a file may hide what would have been found; it never turns a fail into anything else.
    private static Verdict Judge(
        List<Finding> findings, Statement[] statements, IEnumerable<Label> labels,
        IReadOnlyList<CaptureAnalysis> captures, IReadOnlyList<FileFault> faults, bool incomplete, bool anyLoad)
    {
        if (findings.Exists(finding => finding.Severity is Severity.Violation or Severity.Mismatch))
        {
            return Verdict.Fails;
        }

        bool open = incomplete
            || findings.Exists(finding => finding.Verdict == Verdict.CannotTell)
            || statements.Any(statement => statement.Verdict == Verdict.CannotTell)
            || labels.Any(static label => label.HasUnreadRating || label.IsUnchecked)
            || (!anyLoad && captures.All(static capture => capture.Advertisements.IsEmpty))
            || faults.Any(static fault => !FaultCodes.IsNote(fault.Fault.Code));
        return open ? Verdict.CannotTell : Verdict.Holds;
    }

    private static ImmutableArray<Phrase> NextSteps(
        List<Finding> findings, Statement[] statements, Label? label, ProductFile product, bool anyLoad)
    {
        UnreadSpan[] unread = label is null ? [] : [.. label.Unread.Where(span => span.MayRate && !label.IsAmbiguous(span))];
        int rest = unread.Length + (label?.UnlistedUnread ?? 0) - MaxUnreadSteps;
        IEnumerable<Phrase> steps = findings.Select(finding => finding.NextStep)
            .Concat(statements.Select(statement => statement.NextStep))
            .Concat(unread.Take(MaxUnreadSteps).Select(static span => Phrase.Of($"Read line {span.At.Line} of the label by hand: \"{span.Text.Trim()}\".")))
            .Append(product.NamesCaptures || !product.Offers.IsEmpty || anyLoad || label is { Outputs.IsEmpty: false } ? "" : "Capture each port that offers USB PD, and name the files under \"captures:\".")
            .Append(product.NamesCaptures || !product.Offers.IsEmpty || label is not null ? "" : "Write what is printed on the product under \"label:\".")
            .Append(rest > 0 ? Phrase.Of($"Read the other {rest} unread places of the label by hand.") : Phrase.Empty);
        return [.. FoldedSteps.Of(steps.Where(static step => !step.IsEmpty), label).Take(MaxStatements)];
    }

    // What is not listed is of a kind that is, so it opens no verdict.
    private static IEnumerable<FileFault> NotListed(string file, long count, string what, int most) =>
        count <= 0 ? [] : [new FileFault(file, AnalysisFaultCodes.Unlisted(count, what, most))];
}
