using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Rules;
using Portwitness.Product.Energy;
using Portwitness.Product.Soaks;

namespace Portwitness.Product.Rules.Energy;

/// <summary>A source gives less than it agreed on and says nothing of it.</summary>
public sealed class PowerReducedSilently : SoakRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "power-reduced-silently",
        Severity = Severity.Caution,
        Title = "A source gives less than it agreed on and says nothing of it",
        Clause = "common practice, no source: who has to give less offers another list; an Alert is owed with PPS only (R3.2v1.1, 6.4.6)",
        Why = "A device that is told of less asks for less and goes on charging; one that is told nothing sees its supply fail.",
        Evidence = "\"soaks:\" with a fall of the voltage below its limits, and \"with:\" a capture of the port that ran beside it.",
        Example = new ProductExample(
            "0x0801912C 0x0006412C", "The voltage falls to 15 V after 18 minutes; no capture ran beside it.",
            Members: """
            label: "USB-C: 5V⎓3A 20V⎓3A"
            soaks:
              - {port: C, at: 20V 3A, file: log.csv, accuracy: {volts: 0.1%, amps: 0.1%}, measured_at: source, longest_step: 1h}
            """,
            Log: FallsBack),
        Category = RuleCategory.Energy,
    };

    /// <inheritdoc/>
    public override void Check(Soak soak, IProductHitSink hits)
    {
        if (!soak.IsOfSource || soak.Power.FellAtUs is not { } fell || soak.Announcement == Announcement.Announced || (soak.IsPack && soak.Power.Fall == PowerFall.Off))
        {
            return;
        }

        bool isSilent = soak.Announcement == Announcement.Silent;
        hits.Report(
            this,
            new Hit(
                isSilent ? Verdict.Fails : Verdict.CannotTell,
                $"{EnergyText.Volts(soak.Power.AtFall.Microvolts)} {(soak.Power.Fall == PowerFall.Off ? "before it went off" : "were left")} after {EnergyText.Time(fell)} at {soak.Log.Log.AtText}"
                + $"{(isSilent ? ", and the port said nothing of it" : "; whether the port said so nobody recorded")}.")
            {
                Expected = "another list before it gives less", Observed = isSilent ? "nothing" : Phrase.Empty,
                NextStep = isSilent ? null : "Record the port's messages beside the log, and name the capture with \"with:\".",
            },
            PlaceOf(soak, soak.Power.StartUs + fell));
    }
}
