using Portwitness.Labels;
using Portwitness.PowerDelivery.Units;
using Portwitness.Service.Translation;
using Wire = Portwitness.Contracts.V1;

namespace Portwitness.Service.Tests.Translation;

public sealed class LabelTranslationTests
{
    private static readonly Place At = new(2, 7);

    [Fact]
    public void EveryPart_KeepsItsValuesAndPlace()
    {
        PrintedFixed mode = new(Volts(9), Amperes(2), Amperes(1), Watts(18), "PD", At, "9V⎓2A");
        PrintedRange range = new("PPS", Volts(3), Volts(11), Amperes(5), Amperes(1), null, At, "3-11V⎓5A");
        Label label = new()
        {
            Text = "text",
            Inputs = [new(null, true, Volts(100), Volts(240), Amperes(1), null, [50, 60], At, "INPUT")],
            Outputs = [new() { Port = "C1", Fixed = [mode], Ranges = [range], Maximum = new(Watts(65), new(3, 1), "65W"), At = At }],
            Combinations =
            [
                new(["C1", "C2"], [new("C1", Watts(45), []), new("C2", null, [mode])],
                    [new(["A1", "A2"], Volts(5), Amperes(3), null)], Watts(65), At, "C1+C2"),
            ],
            Total = new(Watts(65), "product", At, "65W"),
            Battery = new()
            {
                CapacityMilliampereHours = 20000, NominalVoltage = Volts(3), Energy = Energy.FromMilliwattHours(74000),
                RatedCapacityMilliampereHours = 12000, RatedVoltage = Volts(5), RatedCurrent = Amperes(3), At = At,
            },
            Unread = [new(At, "???", MayRate: true)],
        };

        Wire.Label translated = label.ToContract();

        Wire.PrintedFixed printed = new()
        {
            VoltageMv = 9000, CurrentMa = 2000, PowerMw = 18000, Protocol = "PD", Line = 2, Column = 7, Text = "9V⎓2A",
        };
        translated.Should().Be(new Wire.Label
        {
            Text = "text",
            Inputs =
            {
                new Wire.PrintedInput
                {
                    Alternating = true, MinVoltageMv = 100_000, MaxVoltageMv = 240_000, CurrentMa = 1000,
                    FrequencyHz = { 50, 60 }, Line = 2, Column = 7,
                },
            },
            Outputs =
            {
                new Wire.PrintedOutput
                {
                    Port = "C1", Fixed = { printed }, MaxPowerMw = 65000, MaxPowerLine = 3, MaxPowerColumn = 1, Line = 2, Column = 7,
                    Ranges =
                    {
                        new Wire.PrintedRange
                        {
                            Kind = "PPS", MinVoltageMv = 3000, MaxVoltageMv = 11000, CurrentMa = 5000, Line = 2, Column = 7,
                            Text = "3-11V⎓5A",
                        },
                    },
                },
            },
            Combinations =
            {
                new Wire.PrintedCombination
                {
                    Ports = { "C1", "C2" }, TotalPowerMw = 65000, Line = 2, Column = 7, Text = "C1+C2",
                    Split =
                    {
                        new Wire.PrintedShare { Port = "C1", PowerMw = 45000 },
                        new Wire.PrintedShare { Port = "C2", Fixed = { printed } },
                    },
                    Pools = { new Wire.PrintedPool { Ports = { "A1", "A2" }, VoltageMv = 5000, CurrentMa = 3000 } },
                },
            },
            Total = new Wire.PrintedTotal { PowerMw = 65000, Scope = "product", Line = 2, Column = 7 },
            Battery = new Wire.PrintedBattery
            {
                CapacityMah = 20000, NominalVoltageMv = 3000, EnergyMwh = 74000, RatedCapacityMah = 12000, RatedVoltageMv = 5000,
                RatedCurrentMa = 3000, Line = 2, Column = 7,
            },
            Unread = { new Wire.UnreadSpan { Line = 2, Column = 7, Text = "???", MayRate = true } },
            OpenPlaces = { new Wire.OpenPlace { Line = 2, Column = 7, Text = "???", MayRate = true } },
        });
    }

    [Fact]
    public void LabelWithoutAnything_HasNoTotalAndNoBattery()
    {
        Wire.Label translated = new Label { Text = "" }.ToContract();

        translated.Total.Should().BeNull();
        translated.Battery.Should().BeNull();
    }

    private static Voltage Volts(int value) => Voltage.FromMillivolts(value * 1000);

    private static Current Amperes(int value) => Current.FromMilliamperes(value * 1000);

    private static Power Watts(int value) => Power.FromMilliwatts(value * 1000);
}
