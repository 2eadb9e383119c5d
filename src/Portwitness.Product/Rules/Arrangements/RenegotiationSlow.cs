using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Measuring;
using Portwitness.Analysis.Rules;
using Portwitness.Product.Arrangements;

namespace Portwitness.Product.Rules.Arrangements;

/// <summary>A port takes long to come to another contract after a neighbour was attached.</summary>
/// <remarks>
/// From tFirstSourceCap, the answers and tSrcTransReq a clean renegotiation is 0.1 to 0.6 s, and one through a Hard Reset 0.7 to 3 s; to
/// which comes what the source needs to notice the neighbour. No source limits the whole: cautions at most.
/// </remarks>
public sealed class RenegotiationSlow : ArrangementRule
{
    /// <summary>From the attach to PS_RDY with VBUS staying: common practice, no source.</summary>
    public const long CleanUs = 2_000_000;

    /// <summary>The same through a Hard Reset: common practice, no source.</summary>
    public const long ResetUs = 4_000_000;

    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "renegotiation-slow",
        Severity = Severity.Caution,
        Title = "A port takes long to come to another contract",
        Clause = "common practice, no source; the steps are those of R3.2v1.1 6.6 and 7.1",
        Why = "Between the neighbour's attach and the new contract both ports may draw what they were granted before. The longer it takes, the "
            + "longer the supply is beyond its budget, or the neighbour without power.",
        Evidence = "The attach as an event, and the port's messages until PS_RDY. Above 2 s, or 4 s through a Hard Reset, it is told.",
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
              - pause 4s
              - advertise shared
              - contract 2 at 2.22A
            """,
            "C1 is offered less only 4 s after C2 was attached."),
        Category = RuleCategory.Arrangements,
    };

    /// <inheritdoc/>
    public override void Check(ProductArrangements product, IProductHitSink hits)
    {
        foreach (Transition one in product.Transitions.Where(one => one.Attached && one.ListUs is not null && (one.ReadyUs is not null || !one.Renewed)))
        {
            long usual = one.IsInterrupted ? ResetUs : CleanUs;
            long took = one.ReadyUs is { } ready ? ready - one.AtUs : one.WatchedUs;
            if (took > usual + one.UncertaintyUs)
            {
                hits.Report(
                    this,
                    new Hit(
                        Verdict.CannotTell,
                        $"{one.Port} {(one.ReadyUs is null ? "had not reached" : "reached")} another contract {InterruptionText.Milliseconds(took)} after {one.Neighbour} "
                        + $"was attached; it was offered otherwise after {InterruptionText.Milliseconds(one.ListUs!.Value - one.AtUs)}.")
                    {
                        Expected = $"within {InterruptionText.Milliseconds(usual)} (common practice)",
                        Observed = $"{InterruptionText.Milliseconds(took)}",
                        NextStep = "Repeat it with another device at the port: a sink may be slow, too.",
                    },
                    new ProductPlace(one.Port, one.InUse) { File = one.File, TimeUs = one.AtUs, MessageIndex = one.MessageIndex });
            }
        }
    }
}
