using System.Collections.Immutable;
using Portwitness.Analysis.Catalogue;
using Portwitness.Analysis.Rules;
using Portwitness.Product.Rules.Arrangements;
using Portwitness.Product.Rules.Energy;
using Portwitness.Product.Rules.Labels;
using Portwitness.Product.Rules.Parts;
using Portwitness.Product.Rules.Signalling;

namespace Portwitness.Product.Catalogue;

/// <summary>
/// All rules: those about one capture (<see cref="CaptureRules"/>), then those about a product, one line each. To add one about a product, add
/// its line here; tests sweep the list.
/// </summary>
public static class RuleCatalogue
{
    /// <summary>All of them.</summary>
    public static ImmutableArray<Rule> All { get; } =
    [
        .. CaptureRules.All,

        // Rules about a label and what a port offers.
        new PrintedRatingNotAdvertised(),
        new PrintedCurrentDiffers(),
        new PrintedRangeNotAdvertised(),
        new PrintedPowerExceedsAdvertised(),
        new AdvertisedRatingNotPrinted(),
        new AdvertisedPowerExceedsPrinted(),
        new DeclaredPowerDiffersFromPrinted(),
        new SinkCurrentExceedsPrinted(),

        // Rules about a label and what ports offer together.
        new CombinationPowerDiffers(),
        new CombinationVoltageNotAsPrinted(),

        // Rules about several ports together.
        new CombinationBudgetExceeded(),
        new AttachOrderMatters(),
        new NeighbourInterrupted(),
        new RenegotiationSlow(),
        new PowerNotRestored(),
        new GuaranteedPortReduced(),
        new ArrangementNotCaptured(),
        new PortNotOnLabel(),
        new TypedOffersDiffer(),
        new PresentPdpInconsistent(),

        // Rules about a label and what ports answer to besides USB PD.
        new PrintedRatingWithoutSignalling(),
        new PrintedProtocolNotAnswered(),
        new LikePortsSignalDifferently(),

        // Rules about a label on its own.
        new PowerProductDiffers(),
        new PortMaximumBelowRating(),
        new PortMaximumAboveRatings(),
        new TotalBelowSinglePort(),
        new CombinationExceedsTotal(),
        new CombinationSplitMismatch(),
        new CombinationNotPrinted(),
        new SharedBudget(),
        new RangeCornerExceedsMaximum(),
        new VoltageOutsideStandard(),
        new PrintedCurrentAbove5A(),
        new PrintedCurrentAbove3AAt5V(),
        new CapacityBasisMissing(),
        new EfficiencyBelowLimit(),
        new NoLoadAboveLimit(),

        // Rules about several labels of one product.
        new LabelsDisagree(),

        // Rules about printed battery figures and stated cells.
        new EnergyDiffers(),
        new CapacityBasisExplained(),
        new CellsDifferFromLabel(),
        new RatedCapacityExceedsEnergy(),
        new EnergyNotDerivable(),
        new ImpliedEfficiencyImplausible(),
        new CarriageBand(),

        // Rules about what was measured of a product's energy.
        new MeasuredCapacityBelowRated(),
        new MeasuredEfficiencyImplausible(),
        new OutputVoltageOutsideTolerance(),
        new OutputCollapsed(),
        new LogHasGaps(),
        new AdapterEfficiencyBelowLimit(),
        new AdapterNoLoadAboveLimit(),
        new LimitWithinUncertainty(),
        new CableResistanceTooLarge(),
        new PrintedPowerNotSustained(),
        new PowerReducedSilently(),
        new OutputCycles(),
        new SteadyStateNotReached(),
        new TouchTemperatureAboveLimit(),

        // Rules about parts on the VBUS side.
        new PartRatingExceeded(),
        new PartHeadroomSmall(),
        new TvsConductsInUse(),
        new TvsClampsTooLate(),
        new SenseResistorOverloaded(),
        new ContactsOverloaded(),
        new InductorSaturates(),
        new CableDropTooLarge(),
        new SwitchLossTooLarge(),
        new CapacitorRippleExceeded(),

        // Rules about the build of a pack.
        new CellEnergyImplausible(),
        new CellCurrentBeyondLimit(),

        // Rules about port controllers.
        new LabelBeyondController(),
        new OfferBeyondController(),
        new ControllerProtocolNotAnswered(),

        // Rules about the ports behind one converter.
        new ConverterNeedsTwoVoltages(),
        new ConverterHoldsOneVoltage(),

        // Rules about what a box or a page says beyond the label.
        new ClaimedTimeImpossible(),
        new ClaimedFillsImpossible(),
        new ClaimedMassDiffers(),
        new ClaimedSizeDiffers(),
        new ClaimedPowerBeyondLabel(),
    ];

    /// <summary>Descriptions in the order of the catalogue.</summary>
    public static ImmutableArray<RuleDescription> Descriptions { get; } = [.. All.Select(rule => rule.Description)];

    /// <summary>What rules are about, in the order of the catalogue.</summary>
    public static ImmutableArray<RuleCategory> Categories { get; } = [.. Descriptions.Select(rule => rule.Category).Distinct()];

    /// <summary>Their names.</summary>
    public static ImmutableHashSet<string> Names { get; } = [.. Descriptions.Select(rule => rule.Name)];

    /// <summary>All of them, as a set to apply.</summary>
    public static RuleSet Set { get; } = new(RuleSelection.All, All);

    /// <summary>The rules that a selection names.</summary>
    public static RuleSet Select(RuleSelection selection)
    {
        ArgumentNullException.ThrowIfNull(selection);
        return selection.IsAll ? Set : new(selection, All.Where(rule => selection.Includes(rule.Description)));
    }

    /// <summary>Names of a selection that are no rule's, in the order in which they were given.</summary>
    public static IEnumerable<string> UnknownNames(RuleSelection selection)
    {
        ArgumentNullException.ThrowIfNull(selection);
        return selection.Only.Concat(selection.Without).Where(name => !Names.Contains(name)).Distinct();
    }
}
