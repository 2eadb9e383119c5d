using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Rules;
using Portwitness.Product.Energy;
using Portwitness.Product.Pack;

namespace Portwitness.Product.Rules.Parts;

/// <summary>Cells of this size or mass do not hold that much.</summary>
public sealed class CellEnergyImplausible : PackRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "cell-energy-implausible",
        Severity = Severity.Caution,
        Title = "Cells of this size or mass do not usually hold that much, or that little",
        Clause = "common practice, no source: 200 to 850 Wh/l and 90 to 330 Wh/kg, unless \"plausible:\" says otherwise",
        Why = "A scale and a ruler expose a false capacity without a discharge: no cell that is sold holds twice what others of its size hold.",
        Evidence = "\"size_mm:\", \"mass_g:\" or \"code:\" of a cell, or \"mass_g:\" of the product, under \"battery:\", with the stated or printed energy.",
        Example = new ProductExample(
            "0x0801912C", "20 Wh in a cell of 18 x 65 mm are 1209 Wh/l.",
            Members: "battery: {cells: {capacity_mah: 5405, nominal_v: 3.7, code: \"18650\"}}"),
        Category = RuleCategory.Parts,
    };

    /// <inheritdoc/>
    public override void Check(PackFigures pack, IProductHitSink hits)
    {
        if (pack is not { Energy: { } energy, OfOneCell: { } cell })
        {
            return;
        }

        (int least, int most) = pack.Build.PlausibleByVolume;
        (CellSize Size, long Density)[] read =
            [.. pack.Sizes.Select(size => (size, Density: size.WattHoursPerLitre(cell))).Where(static one => one.Density is not null).Select(static one => (one.size, one.Density!.Value))];

        // A code that can be read in two ways is read in the one that is possible.
        if (read.Length > 0 && Array.TrueForAll(read, one => one.Density < least || one.Density > most))
        {
            (CellSize size, long nearest) = read.MinBy(one => one.Density > most ? one.Density - most : least - one.Density);
            Phrase by = pack.Build.Size is null ? Phrase.Of($", as \"{pack.Build.Code}\" says,") : Phrase.Empty;
            Report(
                hits, energy, $"A cell of {size.Text}{by} would hold {EnergyText.Energy(cell)}, which is {nearest} Wh/l.", $"{least} to {most} Wh/l", $"{nearest} Wh/l");
        }

        (int light, int heavy) = pack.Build.PlausibleByMass;
        if (pack.Build.MassMilligrams is { } mass && PackFigures.PerKilogram(cell, mass) is var perKilogram && (perKilogram < light || perKilogram > heavy))
        {
            Report(
                hits, energy, $"A cell of {Grams(mass)} would hold {EnergyText.Energy(cell)}, which is {perKilogram} Wh/kg.", $"{light} to {heavy} Wh/kg", $"{perKilogram} Wh/kg");
        }

        // A whole product weighs more than its cells, so that only too much is implausible.
        if (pack.Build.BodyMassMilligrams is { } whole && PackFigures.PerKilogram(energy.MicrowattHours, whole) is var ofWhole && ofWhole > heavy)
        {
            Report(
                hits, energy, $"The whole product of {Grams(whole)} would hold {EnergyText.Energy(energy.MicrowattHours)}, which is {ofWhole} Wh/kg.",
                $"at most {heavy} Wh/kg", $"{ofWhole} Wh/kg");
        }
    }

    private static Phrase Grams(int milligrams) => $"{PackFigures.GramsText(milligrams)}";

    private void Report(IProductHitSink hits, CellEnergy energy, Phrase detail, Phrase expected, Phrase observed) => hits.Report(
        this,
        new Hit(Verdict.CannotTell, detail)
        {
            LabelLine = energy.LabelLine, Expected = expected, Observed = observed,
            NextStep = "Measure the cells once more, without tabs and wrapping, and log a discharge: it settles what they hold.",
        },
        Place);
}
