using Portwitness.Contracts.V1;
using Portwitness.Reports.Html;

namespace Portwitness.Reports.Tests;

/// <summary>The legend of a power envelope says what the source offers, and apart from it what is declared or printed.</summary>
public sealed class EnvelopeLegendTests
{
    // 20 V 3.25 A is 65 W, whatever a label prints or the port declares of itself; 9 V 2.22 A is the 19.98 W of a source of 20 W (R3.2v1.1, 10.2).
    [Theory]
    [InlineData(20_000, 3_250, 100_000, "printed", 100_000, "offered PD power, 65 W|printed maximum, 100 W")]
    [InlineData(20_000, 3_250, 100_000, "printed", 0, "offered PD power, 65 W|PD power, printed, 100 W")]
    [InlineData(20_000, 3_250, 100_000, "declared", 65_000, "offered PD power, 65 W|PD power, declared, 100 W|printed maximum, 65 W")]
    [InlineData(20_000, 3_250, 65_000, "derived from the list", 0, "offered PD power, 65 W")]
    [InlineData(9_000, 2_220, 20_000, "declared", 0, "offered PD power, 20 W")]
    [InlineData(9_000, 2_220, 0, "", 0, "offered PD power, 19.98 W")]
    public void Curves_AreNamedRightly(int millivolts, int milliamperes, int pdp, string basis, int most, string expected)
    {
        Advertisement offered = new()
        {
            Message = "Source_Capabilities", PdpBasis = basis,
            Objects = { new PowerObject { Position = 1, Fixed = new() { VoltageMv = millivolts, MaxCurrentMa = milliamperes } } },
        };
        PrintedOutput printed = new() { Port = "C1", Fixed = { new PrintedFixed { VoltageMv = 20_000, CurrentMa = 5_000 } } };
        (offered.PdpMw, printed.MaxPowerMw) = (pdp, most);
        Clear(pdp == 0, offered.ClearPdpMw);
        Clear(most == 0, printed.ClearMaxPowerMw);

        string figure = EnvelopePlot.Of(offered, printed, "C1 alone", "e0")!.ToString();

        string.Join('|', figure.Split('<', '>').Where(static text => text.Contains("power, ", StringComparison.Ordinal)
            || text.Contains("maximum, ", StringComparison.Ordinal))).Should().Be(expected);
    }

    private static void Clear(bool isAbsent, Action clear)
    {
        if (isAbsent)
        {
            clear();
        }
    }
}
