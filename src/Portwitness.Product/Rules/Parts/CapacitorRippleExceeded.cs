using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Rules;
using Portwitness.PowerDelivery.Units;
using Portwitness.Product.Parts;

namespace Portwitness.Product.Rules.Parts;

/// <summary>The ripple current of a converter may be more than its capacitors are rated for.</summary>
public sealed class CapacitorRippleExceeded : PartRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "capacitor-ripple-exceeded",
        Severity = Severity.Caution,
        Title = "The ripple current of a converter may be more than its capacitors are rated for",
        Clause = "common practice, no source: usual formulae of converters in continuous conduction (makers' application notes); 90 % efficiency is a default, not a standard",
        Why = "Ripple current heats capacitors from within: electrolytics dry out in months where they should last for years.",
        Evidence = "\"ripple:\" of a part of kind capacitor on a port or on the pack, \"parallel:\" where several share it, the cells under \"battery:\", and a capture of the "
            + "port; \"microhenries:\" and \"kilohertz:\" of an inductor on the same node for the coil's own ripple.",
        Example = new ProductExample(
            "0x0801912C 0x0002D12C 0x0004B12C 0x00064145", "20 V 3.25 A from 6 V put 5.3 A into the capacitors at the port.",
            Members: "parts:\n  - {part: C9, kind: capacitor, node: C, volts: 35V, ripple: 3A}\nbattery: {cells: {series: 2, capacity_mah: 5000, nominal_v: 3.6, full_v: 4.2, empty_v: 3.0}}"),
        Category = RuleCategory.Parts,
    };

    private const int UsualPpm = 900_000;

    /// <inheritdoc/>
    public override void Check(PartStress part, IProductHitSink hits)
    {
        if (part is not { Part.Ripple: { } rated, Pack: { EmptyMillivolts: { } empty } pack } || part.Level.Outputs.IsEmpty)
        {
            return;
        }

        ProductPart? coil = part.Beside.FirstOrDefault(static other => other is { Kind: PartKind.Inductor, Nanohenries: not null, Hertz: not null });
        bool isAtPack = part.Level.Basis == NodeBasis.Cells;
        int Through((Voltage, Current) output, int packMillivolts) => isAtPack
            ? CapacitorCurrent.AtPack(output, packMillivolts, UsualPpm, coil)
            : CapacitorCurrent.AtPort(output, packMillivolts, UsualPpm, coil);
        var (all, output, packMillivolts) = part.Level.Outputs
            .SelectMany(one => Packs(pack.Series * empty, pack.Series * (pack.FullMillivolts ?? empty), one.Voltage.Millivolts * 2),
                (one, volts) => (Current: Through(one, volts), one, volts))
            .MaxBy(static found => found.Current);
        Current each = Current.FromMilliamperes((all + part.Part.Parallel - 1) / part.Part.Parallel);
        if (each <= rated)
        {
            return;
        }

        Phrase shared = part.Part.Parallel > 1 ? Phrase.Of($", shared by {part.Part.Parallel}") : "";
        Phrase own = coil is null ? Phrase.Of($"; the ripple of the coil is not counted") : "";
        hits.Report(
            this,
            new Hit(
                Verdict.CannotTell,
                Phrase.Of($"{output.Voltage} {output.Current} from {Voltage.FromMillivolts(packMillivolts)} with 90 % efficiency")
                    + Phrase.Of($" put {each} rms into {part.Part.Name}")
                    + shared + FormulaOf(isAtPack, output.Voltage.Millivolts > packMillivolts) + Phrase.Of($"; it is rated for {rated}, and this is ")
                    + Share(each.Milliamperes, rated.Milliamperes) + own + ".")
            {
                Expected = $"at most {rated} rms", Observed = $"{each}",
                NextStep = $"Hold the ripple rating of {part.Part.Name} at the converter's frequency and its own temperature against that, or measure its temperature at full output.",
            },
            PlaceOf(part));
    }

    private static Phrase FormulaOf(bool isAtPack, bool isBoost) => (isAtPack, isBoost) switch
    {
        (false, true) => " (√(D I² + (1 - D)((I_L - I)² + ΔI²/12)), D = 1 - V_in η / V_out, I_L = I / (1 - D))",
        (true, false) => " (√(D (I² (1 - D) + ΔI²/12)), D = V_out / (V_in η))",
        _ => " (ΔI / √12)",
    };

    // The input's current is largest at twice the output's voltage, the output's with an empty pack.
    private static IEnumerable<int> Packs(int empty, int full, int twice) => twice > empty && twice < full ? [empty, full, twice] : [empty, full];
}
