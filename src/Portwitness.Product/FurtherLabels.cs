using System.Collections.Immutable;
using Portwitness.Analysis;
using Portwitness.Analysis.Catalogue;
using Portwitness.Analysis.Findings;
using Portwitness.Labels;
using Portwitness.Product.Comparison;
using Portwitness.Product.Controllers;
using Portwitness.Product.Converters;
using Portwitness.Product.Decisions;
using Portwitness.Product.Energy;
using Portwitness.Product.Offers;
using Portwitness.Product.Rules.Energy;
using Portwitness.Product.Rules.Labels;
using Portwitness.Product.Rules.Parts;
using Portwitness.Product.Signalling;

namespace Portwitness.Product;

/// <summary>Holds the labels of a product that are not the first against the same evidence, and all of them against each other.</summary>
internal sealed class FurtherLabels(
    ProductFile product, IReadOnlyList<PortOffer> offers, IReadOnlyList<CaptureAnalysis> captures, IReadOnlyList<MeasuredLog> logs,
    ImmutableArray<PortSignalling> signalling, RuleSet rules, DecisionRule decision)
{
    private readonly List<Finding> _findings = [];
    private readonly List<JudgedLabel> _labels = [];

    /// <summary>What was found, each with the name of its label.</summary>
    public IReadOnlyList<Finding> Findings => _findings;

    /// <summary>The labels with their statements.</summary>
    public ImmutableArray<JudgedLabel> Labels => [.. _labels];

    /// <summary>Findings that are not listed.</summary>
    public long Unlisted { get; private set; }

    /// <summary>Holds a label against the evidence.</summary>
    public void Add(string name, Label label)
    {
        ProductEnergy energy = new(label, CellEnergy.Of(product.Cells, label), [.. logs], []) { Decision = decision };
        LabelComparison comparison = LabelComparison.Of(label, offers, PortIntake.Of(label, captures), signalling, energy, product.Cells);
        LabelFindings found = new(label);
        foreach (LabelRule rule in rules.OfType<LabelRule>())
        {
            rule.Check(comparison, found);
        }

        LabelFindings printed = LabelFindings.Of(comparison.WithoutSettled(), rules, product.Cells);
        ProductFindings beside = new(label, UncheckedOffers.FilesOf(offers));
        foreach (EnergyRule rule in rules.OfType<EnergyRule>())
        {
            rule.Check(energy, beside);
        }

        ImmutableArray<ControllerUse> controllers = ControllerUse.Of(product.Controllers, label, offers, signalling);
        foreach (ControllerRule rule in rules.OfType<ControllerRule>())
        {
            foreach (ControllerUse use in controllers)
            {
                rule.Check(use, beside);
            }
        }

        foreach (ConverterRule rule in rules.OfType<ConverterRule>())
        {
            foreach (ProductConverter converter in product.Converters)
            {
                rule.Check(new ConverterUse(converter, label, [], []), beside);
            }
        }

        // What logs and data sheets say of no label was found once already.
        Finding[] all = [.. found.Findings, .. printed.Findings, .. beside.Findings.Where(static one => one.LabelLine is not null)];
        _findings.AddRange(all.Select(one => one with { Label = name }));
        Unlisted += found.Unlisted + printed.Unlisted;
        _labels.Add(new JudgedLabel(name, label, ContradictedStatements.With(label, ContradictedStatements.Of(comparison), all)));
    }

    /// <summary>Holds all labels against each other.</summary>
    public void Compare(IReadOnlyList<(string Name, Label Label)> labels)
    {
        LabelPairFindings found = new();
        foreach (LabelsDisagree rule in rules.OfType<LabelsDisagree>())
        {
            for (int first = 0; first < labels.Count; first++)
            {
                for (int second = first + 1; second < labels.Count; second++)
                {
                    rule.Check(labels[first].Name, labels[first].Label, labels[second].Name, labels[second].Label, found);
                }
            }
        }

        _findings.AddRange(found.Findings);
        Unlisted += found.Unlisted;
    }
}
