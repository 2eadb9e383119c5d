using Portwitness.Contracts.V1;
using Portwitness.Reports.Text;

namespace Portwitness.Reports.Tests;

public sealed class LabelTextTests
{
    [Fact]
    public void BatteryFigures_StandUnderTheirOwnLines()
    {
        using StringWriter writer = new() { NewLine = "\n" };
        Label label = new()
        {
            Text = "Battery: 10000mAh 3.7V\nEnergy: 37Wh\nRated capacity: 6000mAh (5V⎓2A)",
            Battery = new PrintedBattery
            {
                CapacityMah = 10000, NominalVoltageMv = 3700, EnergyMwh = 37000, RatedCapacityMah = 6000, RatedVoltageMv = 5000, Line = 1, Column = 1,
                Statements =
                {
                    new PrintedBattery { CapacityMah = 10000, NominalVoltageMv = 3700, Line = 1, Column = 1 },
                    new PrintedBattery { EnergyMwh = 37000, Line = 2, Column = 1 },
                    new PrintedBattery { RatedCapacityMah = 6000, RatedVoltageMv = 5000, Line = 3, Column = 1 },
                },
            },
        };

        LabelText.Write(writer, label, TextStyle.Plain);

        writer.ToString().Should().StartWith("""
            Label as read
              1  Battery: 10000mAh 3.7V
                   column 1  battery  10000 mAh, 3.7 V
              2  Energy: 37Wh
                   column 1  battery  37 Wh
              3  Rated capacity: 6000mAh (5V⎓2A)
                   column 1  battery  rated 6000 mAh, at 5 V
            """);
    }

    [Fact]
    public void EveryRating_StandsUnderItsLineAtItsColumn()
    {
        using StringWriter writer = new() { NewLine = "\n" };
        Label label = new()
        {
            Text = "INPUT 100-240V~ 50/60Hz 1.5A\nC1: 20V⎓3,25A (65W Max) PPS 3.3-11V⎓5A 夜间 x\n\nC1+C2: 45W+20W\n20000mAh 74Wh",
            Inputs = { new PrintedInput { Alternating = true, MinVoltageMv = 100_000, MaxVoltageMv = 240_000, CurrentMa = 1500, FrequencyHz = { 50, 60 }, Line = 1, Column = 7 } },
            Outputs =
            {
                new PrintedOutput
                {
                    Port = "C1", MaxPowerMw = 65000, MaxPowerLine = 2, MaxPowerColumn = 16,
                    Fixed = { new PrintedFixed { VoltageMv = 20000, CurrentMa = 3250, Line = 2, Column = 5 } },
                    Ranges = { new PrintedRange { Kind = "PPS", MinVoltageMv = 3300, MaxVoltageMv = 11000, CurrentMa = 5000, Line = 2, Column = 29 } },
                },
            },
            Combinations =
            {
                new PrintedCombination
                {
                    Ports = { "C1", "C2" }, Line = 4, Column = 1,
                    Split = { new PrintedShare { Port = "C1", PowerMw = 45000 }, new PrintedShare { Port = "C2", PowerMw = 20000 } },
                },
            },
            Battery = new PrintedBattery { CapacityMah = 20000, EnergyMwh = 74000, Line = 5, Column = 1 },
            Unread = { new UnreadSpan { Line = 2, Column = 40, Text = "夜间" }, new UnreadSpan { Line = 2, Column = 43, Text = "x" } },
            Repairs = { new PrintedRepair { Kind = "number", Line = 2, Column = 9, Before = "3,25A", After = "3.25 A" } },
            Cautions = { "Be careful." },
        };

        LabelText.Write(writer, label, TextStyle.Plain);

        writer.ToString().Should().Be("""
            Label as read
              1  INPUT 100-240V~ 50/60Hz 1.5A
                   column 7  input  100 to 240 V AC, 50/60 Hz, 1.5 A
              2  C1: 20V⎓3,25A (65W Max) PPS 3.3-11V⎓5A 夜间 x
                                                        ^^^^ ^ not read
                   column 5   output  C1  20 V         3.25 A
                   column 16  output  C1  at most              65 W
                   column 29  output  C1  3.3 to 11 V  5 A           PPS
              4  C1+C2: 45W+20W
                   column 1  together  C1 + C2  C1 45 W, C2 20 W
              5  20000mAh 74Wh
                   column 1  battery  20000 mAh, 74 Wh

            Words not read: 2

            Read differently than printed
              line 2, column 9  3,25A  as  3.25 A  decimal comma or digits in groups

            Findings: none

            Cautions
              - Be careful.

            """.ReplaceLineEndings("\n"));
    }
}
