using Portwitness.Analysis;
using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Measuring;
using Portwitness.Analysis.PdpRules;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Profile;
using Portwitness.Analysis.Rules;
using Portwitness.Following.Contracts;
using Portwitness.Labels;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.Units;
using Portwitness.Product.Arrangements;
using Portwitness.Product.Comparison;
using Portwitness.Product.Offers;

namespace Portwitness.Product.Rules.Arrangements;

/// <summary>What Source_Info says a port can give now is neither offered when it is wanted nor what is printed.</summary>
/// <remarks>Reported PDP below Present PDP is lawful until a sink says that it wants more (6.4.2.3).</remarks>
public sealed class PresentPdpInconsistent : ArrangementRule
{
    private static readonly long ResponseUs = TimingLimits.LongestUs(TimingLimits.TCapabilitiesMismatchResponse);

    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "present-pdp-inconsistent",
        Severity = Severity.Violation,
        Title = "Port Present PDP is not what is offered or printed",
        Clause = "R3.2v1.1 6.4.11, 6.4.2.3 (tCapabilitiesMismatchResponse)",
        Why = "Present PDP is what a port can supply now. A device that wants more and says so is to be offered it within two seconds; where it "
            + "is not, the device charges slower than it could for no reason.",
        Evidence = "Source_Info under a contract with Capability Mismatch, and the messages of two seconds after its PS_RDY. Against a printed "
            + "combination it is a note: a managed port may state all of the power that is shared.",
        Editions = Editions.R32,
        Example = new ScriptExample(
            """
            port: C1
            in_use: [C1]
            edition: R3.2
            source: [5V 3A, 9V 2.22A]
            steps:
              - attach
              - advertise
              - contract 2 at 2.22A mismatch
              - send sink Get_Source_Info
              - send source Source_Info 0x002D2D13
              - pause 3s
              - measure 9V 2.2A
            """,
            "The sink wants more, the port says that it can give 45 W, and goes on offering 20 W."),
        Category = RuleCategory.Arrangements,
    };

    /// <inheritdoc/>
    public override void Check(ProductArrangements product, IProductHitSink hits)
    {
        foreach (CaptureAnalysis capture in product.Captures)
        {
            foreach (SourceInfoStatement stated in capture.Infos)
            {
                CheckMismatch(capture, stated, hits);
                CheckPrinted(product.Label, capture, stated, hits);
            }
        }
    }

    private void CheckMismatch(CaptureAnalysis capture, SourceInfoStatement stated, IProductHitSink hits)
    {
        ContractAttempt wanting = capture.Contracts.LastOrDefault(contract => contract.CapabilityMismatch == true
            && contract.ReadyUs is { } ready && ready <= stated.Place.TimeUs
            && (contract.EndedUs ?? capture.Bench.EndUs) - ready > ResponseUs && (contract.EndedUs ?? long.MaxValue) > stated.Place.TimeUs);
        Advertisement[] lists = [.. capture.Advertisements.Where(list => list.IsOwn && list.Message.IsSourceList)];
        if (wanting.ReadyUs is not { } readyUs || (capture.Editions & Editions.R32) == 0
            || lists.LastOrDefault(list => list.TimeUs <= readyUs) is not { } inForce)
        {
            return;
        }

        // A new list within the time answers it, whatever it offers.
        bool isAnswered = lists.Any(list => list.TimeUs >= readyUs && list.TimeUs <= readyUs + ResponseUs);
        int offered = PortOffer.LargestPowerOf(inForce);
        if (!isAnswered && stated.Info.PresentPdp.Milliwatts - offered > SharingJudgement.RoundingMilliwatts)
        {
            bool settled = stated.NothingMissed && capture.Editions == Editions.R32;
            hits.Report(
                this,
                new Hit(
                    settled ? Verdict.Fails : Verdict.CannotTell,
                    $"The sink said at {InterruptionText.Seconds(readyUs)} that it wants more. Port Present PDP is {stated.Info.PresentPdp}, "
                    + $"and no more than {PowerRules.Watts(offered)} was offered in the two seconds that followed.")
                {
                    Expected = $"a new list, up to {stated.Info.PresentPdp}", Observed = $"{PowerRules.Watts(offered)}",
                    NextStep = settled ? null : SourceEvidence.EditionNextStep,
                },
                PlaceOf(capture, stated));
        }
    }

    private void CheckPrinted(Label? label, CaptureAnalysis capture, SourceInfoStatement stated, IProductHitSink hits)
    {
        string set = OfferGroup.SetOf(stated.Place.InUse);
        PrintedCombination? printed = stated.Place.InUse.Length < 2 ? null : label?.Combinations.FirstOrDefault(one => OfferGroup.SetOf(one.Ports) == set);
        Power present = stated.Info.PresentPdp;
        if (printed?.Split.FirstOrDefault(share => PortNames.Same(share.Port, capture.Port))?.Power is { } power
            && Math.Abs(power.Milliwatts - present.Milliwatts) > Math.Max(SharingJudgement.RoundingMilliwatts, PowerClaims.Tolerance(power)))
        {
            hits.Report(
                this,
                new Hit(
                    default,
                    $"With {Phrase.JoinNames(" and ", stated.Place.InUse)} in use {capture.Port} says that it can give {present}; \"{printed.Text}\" prints {power} for it.")
                {
                    IsNote = true, LabelLine = printed.At.Line, Expected = $"{power}", Observed = $"Port Present PDP {present}",
                },
                PlaceOf(capture, stated));
        }
    }

    private static ProductPlace PlaceOf(CaptureAnalysis capture, SourceInfoStatement stated) => new(capture.Port, stated.Place.InUse)
    {
        File = capture.File, TimeUs = stated.Place.TimeUs, MessageIndex = stated.Place.MessageIndex,
    };
}
