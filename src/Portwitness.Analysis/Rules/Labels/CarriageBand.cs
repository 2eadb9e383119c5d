using Portwitness.Analysis.Findings;
using Portwitness.Labels;

namespace Portwitness.Analysis.Rules.Labels;

/// <summary>The energy decides how the pack may travel by air.</summary>
public sealed class CarriageBand : PrintedRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "carriage-band",
        Severity = Severity.Caution,
        Title = "The energy decides how the pack may travel by air",
        Clause = "printed label; limits of 100 Wh and 160 Wh of passenger air transport",
        Why = "Up to 100 Wh a pack usually goes into the cabin without asking, up to 160 Wh with the airline's approval, above "
            + "it not at all. The band is by the label; an airline may be stricter.",
        Evidence = "The printed energy, or capacity and voltage of the cells.",
        Example = new("0x0801912C", "111 Wh need an airline's approval.", Label: "Battery: 30000mAh 3.7V 111Wh"),
        Category = "label",
    };

    /// <inheritdoc/>
    public override void Check(Label label, ILabelHitSink hits)
    {
        if (label.Battery is not { } battery || PrintedPowers.CellEnergy(battery) is not { } energy)
        {
            return;
        }

        string band = energy switch
        {
            <= 100_000 => "at most 100 Wh: usually cabin baggage without approval",
            <= 160_000 => "above 100 Wh: the airline must approve it",
            _ => "above 160 Wh: not for passengers",
        };
        hits.Report(
            this,
            new Hit(Verdict.Fails, $"Band by label: {band} ({PrintedPowers.WattHours(energy)}). Airlines' rules may be stricter, and they decide.")
            {
                IsNote = energy <= 100_000,
                LabelLine = (battery.EnergyAt ?? battery.At).Line,
                Observed = PrintedPowers.WattHours(energy),
            },
            "");
    }
}
