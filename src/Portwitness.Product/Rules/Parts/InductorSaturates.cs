using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Rules;
using Portwitness.PowerDelivery.Units;
using Portwitness.Product.Parts;

namespace Portwitness.Product.Rules.Parts;

/// <summary>The coil of a converter may be driven beyond its saturation.</summary>
public sealed class InductorSaturates : PartRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "inductor-saturates",
        Severity = Severity.Caution,
        Title = "The coil of a converter may be driven beyond its saturation",
        Clause = "common practice, no source: usual formulae of converters in continuous conduction (makers' application notes); 90 % efficiency is a default, not a standard",
        Why = "A coil that saturates no longer limits the current: switches see a multiple of it.",
        Evidence = "\"saturates:\" of a part of kind inductor on a port, the cells under \"battery:\", and a capture of the port; \"microhenries:\" and \"kilohertz:\" for the ripple.",
        Example = new ProductExample(
            "0x0801912C 0x0002D12C 0x0004B12C 0x00064145", "20 V 3.25 A from 6 V take 12 A with 90 % efficiency.",
            Members: "parts:\n  - {part: L1, kind: inductor, node: C, saturates: 7A}\nbattery: {cells: {series: 2, capacity_mah: 5000, nominal_v: 3.6, full_v: 4.2, empty_v: 3.0}}"),
        Category = RuleCategory.Parts,
    };

    private const int UsualPpm = 900_000;

    /// <inheritdoc/>
    public override void Check(PartStress part, IProductHitSink hits)
    {
        if (part is not { Part: { Kind: PartKind.Inductor, Saturation: { } saturation }, Pack: { EmptyMillivolts: { } empty } pack } || part.Level.Outputs.IsEmpty || part.Level.Basis == NodeBasis.Cells)
        {
            return;
        }

        // Which of several coils carries how much, and how deep the pack goes at full output, only a measurement shows.
        (Voltage Voltage, Current Current) output = part.Level.Outputs.MaxBy(one => CoilCurrent.Peak(one, empty * pack.Series, UsualPpm, part.Part));
        Current peak = Current.FromMilliamperes(CoilCurrent.Peak(output, empty * pack.Series, UsualPpm, part.Part));
        if (peak <= saturation)
        {
            return;
        }

        hits.Report(
            this,
            new Hit(
                Verdict.CannotTell,
                $"{part.Part.Name} alone would carry up to {peak} at {output.Voltage} {output.Current} with nearly empty cells and 90 % efficiency; it saturates at {saturation}.")
            {
                Expected = $"at most {saturation}", Observed = $"{peak}",
                NextStep = $"Measure the current of {part.Part.Name} at full output with nearly empty cells.",
            },
            PlaceOf(part));
    }
}
