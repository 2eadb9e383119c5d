using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Rules;
using Portwitness.Labels;
using Portwitness.Product.Printed;

namespace Portwitness.Product.Rules.Labels;

/// <summary>A rated capacity is printed without its voltage.</summary>
public sealed class CapacityBasisMissing : PrintedRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "capacity-basis-missing",
        Severity = Severity.Caution,
        Title = "A rated capacity is printed without its voltage",
        Clause = "printed label; GB/T 35590-2017 for the rated capacity at a rated voltage and current",
        Why = "Milliampere-hours mean nothing without the voltage that they are given at: 10000 mAh at 3.7 V are 7400 mAh at 5 "
            + "V. Without it the rated capacity cannot be checked.",
        Evidence = "A printed rated capacity, and no unread words that may be its voltage.",
        Example = new LabelExample(
            "0x0801912C", "The rated capacity says 6000 mAh, and not at which voltage.",
            Label: "Battery: 10000mAh 3.7V 37Wh\nRated capacity: 6000mAh"),
        Category = RuleCategory.Label,
    };

    /// <inheritdoc/>
    public override void Check(Label label, ILabelHitSink hits)
    {
        if (label.Battery is { RatedCapacityMilliampereHours: { } rated, RatedVoltage: null } battery)
        {
            bool isRead = !label.MayRateMore;
            hits.Report(
                this,
                new Hit(isRead ? Verdict.Fails : Verdict.CannotTell, $"Rated capacity {PrintedPowers.MilliampereHours(rated)} is printed without a voltage and a current.")
                {
                    LabelLine = (battery.RatedAt ?? battery.At).Line,
                    Expected = "for example \"6000 mAh (5 V 3 A)\"",
                    Observed = $"{PrintedPowers.MilliampereHours(rated)}",
                    NextStep = isRead ? null : "Read the unread words of the label by hand.",
                },
                "");
        }
    }
}
