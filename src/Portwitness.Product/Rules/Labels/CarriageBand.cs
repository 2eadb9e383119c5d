using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Rules;
using Portwitness.Product.Energy;
using Portwitness.Product.Printed;

namespace Portwitness.Product.Rules.Labels;

/// <summary>The energy decides how the pack may travel by air.</summary>
public sealed class CarriageBand : BatteryRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "carriage-band",
        Severity = Severity.Caution,
        Title = "The energy decides how the pack may travel by air",
        Clause = "printed label; limits of 100 Wh and 160 Wh of passenger air transport",
        Why = "Up to 100 Wh a pack usually goes into the cabin without asking, up to 160 Wh with the airline's approval, above "
            + "it not at all. The band is by the cells where they are stated, otherwise by the label; an airline may be stricter.",
        Evidence = "The cells under \"battery:\", or the printed energy, or printed capacity and voltage.",
        Example = new LabelExample("0x0801912C", "111 Wh need an airline's approval.", Label: "Battery: 30000mAh 3.7V 111Wh"),
        Category = RuleCategory.Label,
    };

    /// <inheritdoc/>
    public override void Check(BatteryFigures battery, ILabelHitSink hits)
    {
        if (battery.EnergiesMilliwattHours is not [long most, ..] energies)
        {
            return;
        }

        bool isSettled = Band(energies[^1]) == Band(most);
        Phrase by = battery.Cells is { } cells ? Phrase.Of($"Band by the cells, {cells.Text}") : "Band by label";
        Phrase found = Phrase.Join(" or ", energies.Select(static energy => Phrase.Of($"{PrintedPowers.WattHours(energy)}")));
        Phrase printed = battery is { Cells: not null, Printed.Energy: { } energy } && energy.MilliwattHours != most ? Phrase.Of($"; {energy} is printed") : "";
        hits.Report(
            this,
            new Hit(
                isSettled ? Verdict.Fails : Verdict.CannotTell,
                $"{by}: {Phrase.Join("; or ", energies.Select(Band).Distinct())} ({found}{printed}). Airlines' rules may be stricter, and they decide.")
            {
                IsNote = isSettled && most <= 100_000,
                LabelLine = (battery.Printed?.EnergyAt ?? battery.Printed?.At)?.Line,
                Observed = found,
                NextStep = isSettled ? null
                    : "State the cells under \"battery:\": the printed capacity may be that of the pack, or that of its cells added up.",
            },
            "");
    }

    private static Phrase Band(long milliwattHours) => milliwattHours switch
    {
        <= 100_000 => "at most 100 Wh: usually cabin baggage without approval",
        <= 160_000 => "above 100 Wh: the airline must approve it",
        _ => "above 160 Wh: not for passengers",
    };
}
