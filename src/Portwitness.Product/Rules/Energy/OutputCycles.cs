using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Rules;
using Portwitness.Product.Energy;
using Portwitness.Product.Soaks;

namespace Portwitness.Product.Rules.Energy;

/// <summary>The output goes off and comes back again and again.</summary>
public sealed class OutputCycles : SoakRule
{
    // Once is a trip, twice may be a retry (common practice, no source).
    private const int Least = 3;

    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "output-cycles",
        Severity = Severity.Caution,
        Title = "The output goes off and comes back again and again",
        Clause = "common practice, no source; R3.2v1.1, 7.1.7.1 asks for Error Recovery after three over-currents, second-hand",
        Why = "A protection that trips, cools down and tries again holds no power, and wears out what is behind it.",
        Evidence = "A log of a load in which the output goes off three times or more and comes back, the load still on.",
        Example = new ProductExample(
            "0x0801912C 0x0006412C", "The output goes off three times within minutes.",
            Members: """
            label: "USB-C: 5V⎓3A 20V⎓3A"
            soaks:
              - {port: C, at: 20V 3A, file: log.csv, accuracy: {volts: 0.1%, amps: 0.1%}, measured_at: source, longest_step: 1h}
            """,
            Log: "time (s),volts,amps\n0,20,3\n70,20,3\n80,0,0\n85,20,3\n150,20,3\n160,0,0\n165,20,3\n230,20,3\n240,0,0\n245,20,3\n400,20,3\n"),
        Category = RuleCategory.Energy,
    };

    /// <inheritdoc/>
    public override void Check(Soak soak, IProductHitSink hits)
    {
        Collapse[] back = [.. soak.Log.Collapses.Where(static one => one.OffUs is not null)];
        if (back.Length < Least)
        {
            return;
        }

        long period = (back[^1].AtUs - back[0].AtUs) / (back.Length - 1);
        long off = (long)back.Average(static one => one.OffUs!.Value);
        hits.Report(
            this,
            new Hit(
                Verdict.CannotTell,
                $"The output went off {soak.Log.CollapseCount} times and came back, every {EnergyText.Time(period)}, for {EnergyText.Time(off)} each.")
            {
                Expected = "an output that stays on, or off", Observed = $"{soak.Log.CollapseCount} times off",
                NextStep = "See whether the load asks for more than it may, and repeat it with less current and at another temperature.",
            },
            PlaceOf(soak, back[0].AtUs));
    }
}
