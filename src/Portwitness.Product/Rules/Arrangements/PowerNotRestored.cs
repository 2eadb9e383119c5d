using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Measuring;
using Portwitness.Analysis.PdpRules;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Rules;
using Portwitness.PowerDelivery.Units;
using Portwitness.Product.Arrangements;
using Portwitness.Product.Offers;

namespace Portwitness.Product.Rules.Arrangements;

/// <summary>A port is not offered again what it was before a neighbour came, although the neighbour is gone.</summary>
public sealed class PowerNotRestored : ArrangementRule
{
    /// <summary>Some sources wait up to ten seconds: common practice, no source.</summary>
    public const long WaitUs = 10_000_000;

    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "power-not-restored",
        Severity = Severity.Caution,
        Title = "A port is not offered its power again after a neighbour was detached",
        Clause = "common practice, no source",
        Why = "Whoever unplugs the second device expects the first to charge as before. A source that waits for ever does it only after it was "
            + "unplugged itself.",
        Evidence = "The detach as an event, ten seconds of the port's messages after it, and a capture of the ports that stay in use without it.",
        Example = new ScriptExample(
            """
            port: C1
            in_use: [C1]
            source:
              alone: [5V 3A, 9V 3A, 15V 3A]
              shared: [5V 3A, 9V 2.22A]
            steps:
              - attach
              - advertise alone
              - contract 3 at 3A
              - attach C2
              - advertise shared
              - contract 2 at 2.22A
              - pause 3s
              - detach C2
              - pause 12s
              - measure 9V 2.2A
            """,
            "C1 is offered 20 W beside C2, and still 12 s after C2 has gone."),
        Category = RuleCategory.Arrangements,
    };

    /// <inheritdoc/>
    public override void Check(ProductArrangements product, IProductHitSink hits)
    {
        foreach (Transition one in product.Transitions.Where(one => !one.Attached && one.BeforeMilliwatts is not null))
        {
            int? usual = product.Groups.Find(one.InUse.IsEmpty ? [one.Port] : one.InUse)
                .Select(group => group.OfferOf(one.Port)).OfType<PortOffer>().Where(offer => !offer.AfterDetach)
                .Select(offer => (int?)offer.LargestPowerMilliwatts).Min();
            if (usual is not { } expected || expected - one.BeforeMilliwatts <= SharingJudgement.RoundingMilliwatts)
            {
                continue;
            }

            bool isBack = expected - one.AfterMilliwatts <= SharingJudgement.RoundingMilliwatts;
            long took = isBack && one.ListUs is { } list ? list - one.AtUs : one.WatchedUs;
            if (took > WaitUs + one.UncertaintyUs)
            {
                Report(one, expected, took, isBack, hits);
            }
        }
    }

    private void Report(Transition one, int expected, long took, bool isBack, IProductHitSink hits)
    {
        Duration after = InterruptionText.Milliseconds(took);
        Power now = PowerRules.Watts(one.AfterMilliwatts ?? 0);
        hits.Report(
            this,
            new Hit(
                Verdict.CannotTell,
                Phrase.Of($"{one.Neighbour} was detached at {InterruptionText.Seconds(one.AtUs)}. {one.Port} was offered {PowerRules.Watts(one.BeforeMilliwatts!.Value)} ")
                + (isBack ? Phrase.Of($"and got more only after {after}.") : $"and is still offered no more than {now} after {after}."))
            {
                Expected = $"{PowerRules.Watts(expected)} within {InterruptionText.Milliseconds(WaitUs)} (common practice)",
                Observed = isBack ? Phrase.Of($"{after}") : $"{now}",
                NextStep = "Repeat it with a device that sets Capability Mismatch: a source may wait until somebody wants more.",
            },
            new ProductPlace(one.Port, one.InUse) { File = one.File, TimeUs = one.AtUs });
    }
}
