using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Rules;
using Portwitness.Product.Energy;
using Portwitness.Product.Soaks;

namespace Portwitness.Product.Rules.Energy;

/// <summary>A soak ended before power and temperature were steady.</summary>
public sealed class SteadyStateNotReached : SoakRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "steady-state-not-reached",
        Severity = Severity.Note,
        Title = "A soak ended before power and temperature were steady",
        Clause = "common practice, no source: the power within 5 % for the last five minutes (10 CFR 430 Appendix Z), a surface within 1 K for the last fifteen (one of several criteria, second-hand)",
        Why = "What is still falling, or getting hotter, has not shown how much of it is left.",
        Evidence = "\"soaks:\" of ten minutes or more; temperatures where they were read.",
        Example = new ProductExample(
            "0x0801912C 0x0006412C", "The load was on for five minutes only.",
            Members: """
            label: "USB-C: 5V⎓3A 20V⎓3A"
            soaks:
              - {port: C, at: 20V 3A, file: log.csv, accuracy: {volts: 0.1%, amps: 0.1%}, measured_at: source, longest_step: 1h}
            """,
            Log: "time (s),volts,amps\n0,20,3\n300,20,3\n"),
        Category = RuleCategory.Energy,
    };

    /// <inheritdoc/>
    public override void Check(Soak soak, IProductHitSink hits)
    {
        SustainedPower power = soak.Power;
        bool isSteady = power.IsPowerSteady == true && power.Temperatures is null or { IsSteady: true };
        if (!soak.Log.Log.IsSoak || isSteady || power.Fall == PowerFall.Off)
        {
            return;
        }

        Phrase why = power.IsPowerSteady switch
        {
            null => "ten minutes are the least",
            false => "the power of the last five minutes is not within 5 %",
            _ => power.Temperatures!.IsSteady is null ? Phrase.Of("fifteen minutes of temperatures are the least") : "the surface is not within 1 K for the last fifteen minutes",
        };
        hits.Report(
            this,
            new Hit(default, Phrase.Of($"Held for {EnergyText.Time(power.ForUs)}: ") + why + ".") { IsNote = true, Expected = "a steady state", Observed = $"{EnergyText.Time(power.ForUs)}" },
            PlaceOf(soak));
    }
}
