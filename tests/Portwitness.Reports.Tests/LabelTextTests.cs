using Portwitness.Contracts.V1;
using Portwitness.Reports.Text;

namespace Portwitness.Reports.Tests;

public sealed class LabelTextTests
{
    [Fact]
    public void EveryRating_IsARowWithItsPlace()
    {
        using StringWriter writer = new() { NewLine = "\n" };
        Label label = new()
        {
            Inputs = { new PrintedInput { Alternating = true, MinVoltageMv = 100_000, MaxVoltageMv = 240_000, CurrentMa = 1500, FrequencyHz = { 50, 60 }, Line = 1, Column = 1 } },
            Outputs =
            {
                new PrintedOutput
                {
                    Port = "C1", MaxPowerMw = 65000, MaxPowerLine = 2,
                    Fixed = { new PrintedFixed { VoltageMv = 20000, CurrentMa = 3250, Line = 2, Column = 9 } },
                    Ranges = { new PrintedRange { Kind = "PPS", MinVoltageMv = 3300, MaxVoltageMv = 11000, CurrentMa = 5000, Line = 2, Column = 20 } },
                },
            },
            Combinations =
            {
                new PrintedCombination
                {
                    Ports = { "C1", "C2" }, Line = 3, Column = 1,
                    Split = { new PrintedShare { Port = "C1", PowerMw = 45000 }, new PrintedShare { Port = "C2", PowerMw = 20000 } },
                },
            },
            Battery = new PrintedBattery { CapacityMah = 20000, EnergyMwh = 74000, Line = 4, Column = 1 },
        };

        LabelText.Write(writer, label, TextStyle.Plain);

        writer.ToString().Should().StartWith("""
            Label as read
              input              100 to 240 V AC, 50/60 Hz, 1.5 A                line 1, column 1
              output    C1       20 V                              3.25 A        line 2, column 9
              output    C1       3.3 to 11 V                       5 A           line 2, column 20  PPS
              output    C1       at most                                   65 W  line 2
              together  C1 + C2  C1 45 W, C2 20 W                                line 3, column 1
              battery            20000 mAh, 74 Wh                                line 4, column 1

            Label text not read: none

            """.ReplaceLineEndings("\n"));
    }
}
