using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Rules;
using Portwitness.Product.Energy;
using Portwitness.Product.Printed;

namespace Portwitness.Product.Rules.Labels;

/// <summary>The energy of the pack is not printed and cannot be computed.</summary>
public sealed class EnergyNotDerivable : BatteryRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "energy-not-derivable",
        Severity = Severity.Mismatch,
        Title = "The energy of the pack is not printed and cannot be computed",
        Clause = "printed label; aviation authorities' notices on power packs without watt-hours",
        Why = "Airlines go by watt-hours. A pack that prints a capacity without its voltage or energy cannot be carried where "
            + "the rule is applied, and its capacity cannot be compared with another.",
        Evidence = "A printed capacity, no unread words that may be energy or voltage, and no cells under \"battery:\".",
        Example = new LabelExample(
            "0x0801912C", "A capacity is printed, and neither its voltage nor its energy.",
            Label: "Battery: 10000mAh"),
        Category = RuleCategory.Label,
    };

    /// <inheritdoc/>
    public override void Check(BatteryFigures battery, ILabelHitSink hits)
    {
        if (battery.Printed is not { Energy: null } printed || !battery.EnergiesMilliwattHours.IsEmpty
            || (printed.CapacityMilliampereHours ?? printed.RatedCapacityMilliampereHours) is not { } capacity)
        {
            return;
        }

        bool isRead = battery.IsRead;
        hits.Report(
            this,
            new Hit(
                isRead ? Verdict.Fails : Verdict.CannotTell,
                $"{PrintedPowers.MilliampereHours(capacity)} is printed without the energy or the cells' voltage{(isRead ? "." : ", as far as the label could be read.")}")
            {
                LabelLine = printed.At.Line,
                Expected = "watt-hours, or the nominal voltage of the cells",
                Observed = $"{PrintedPowers.MilliampereHours(capacity)}",
                NextStep = isRead ? null : "Read the unread words of the label by hand.",
            },
            "");
    }
}
