using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Rules;
using Portwitness.Product.Energy;
using Portwitness.Product.Soaks;

namespace Portwitness.Product.Rules.Energy;

/// <summary>A surface gets hotter than the row of the table that was chosen for it.</summary>
public sealed class TouchTemperatureAboveLimit : SoakRule
{
    // From there on a pack is to be left alone (common practice, no source).
    private const int StopMillidegrees = 60_000;

    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "touch-temperature-above-limit",
        Severity = Severity.Caution,
        Title = "A surface gets hotter than the row of the table that was chosen for it",
        Clause = "common practice, no source that was read: IEC 62368-1 Table 38 (TS1) at 25 °C, second-hand and from memory",
        Why = "Skin is hurt by what is held for minutes at 48 °C, and by metal at 60 °C within seconds.",
        Evidence = "\"soaks:\" with temperatures of surface and room, and \"touch:\" with the row of the table and the material.",
        Example = new ProductExample(
            "0x0801912C 0x0006412C", "A pack that is held gets 52 °C hot.",
            Members: """
            label: "USB-C: 5V⎓3A 20V⎓3A"
            touch: {row: held, material: plastic}
            soaks:
              - {port: C, at: 20V 3A, file: log.csv, temperatures: [case, ambient], measured_at: source, longest_step: 1h}
            """,
            Log: "time (s),volts,amps,case (°C),ambient (°C)\n0,20,3,25,25\n600,20,3,45,25\n1800,20,3,52,25\n"),
        Category = RuleCategory.Energy,
    };

    /// <inheritdoc/>
    public override void Check(Soak soak, IProductHitSink hits)
    {
        if (soak.Power.Temperatures is not { } temperatures)
        {
            return;
        }

        if (soak.IsPack && temperatures.HottestSurface >= StopMillidegrees)
        {
            hits.Report(
                this,
                new Hit(Verdict.CannotTell, $"{Degrees(temperatures.HottestSurface)} after {EnergyText.Time(temperatures.HottestAtUs)} on the housing of a pack: stop there, let it cool down, and keep away from it.")
                {
                    Expected = "less than 60 °C", Observed = $"{Degrees(temperatures.HottestSurface)}", NextStep = "Do not repeat it before the reason is known.",
                },
                PlaceOf(soak, soak.Power.StartUs + temperatures.HottestAtUs));
        }

        if (soak.Touch is not { } touch)
        {
            return;
        }

        int? at25 = temperatures.HottestAt25;
        if (at25 is { } hot ? hot <= touch.Millidegrees : temperatures.HottestSurface <= touch.Millidegrees)
        {
            return;
        }

        hits.Report(
            this,
            new Hit(
                at25 is null ? Verdict.CannotTell : Verdict.Fails,
                $"{Degrees(temperatures.HottestSurface)} after {EnergyText.Time(temperatures.HottestAtUs)}{(at25 is { } reckoned ? Phrase.Of($", {Degrees(reckoned)} at a room of 25 °C") : "")}: "
                + $"a surface of {touch.Material} that is {touch.Row} may have {Degrees(touch.Millidegrees)}.")
            {
                Expected = $"at most {Degrees(touch.Millidegrees)}", Observed = $"{Degrees(at25 ?? temperatures.HottestSurface)}",
                NextStep = at25 is null ? "Repeat it in a room of 20 to 30 °C, and log the room's temperature, too (\"ambient\")." : null,
            },
            PlaceOf(soak, soak.Power.StartUs + temperatures.HottestAtUs));
    }

    private static Quantity Degrees(int millidegrees) => new(millidegrees, QuantityUnit.Millidegrees);
}
