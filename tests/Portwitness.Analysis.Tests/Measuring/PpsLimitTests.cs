namespace Portwitness.Analysis.Tests.Measuring;

/// <summary>The current limit of PPS (R3.2v1.1, 7.1.4.2.2, Table 7.23): iPpsCLNew is 150 mA up to 3 A and 5 % above.</summary>
public class PpsLimitTests
{
    [Theory]
    [InlineData(2_000, 2_150)]
    [InlineData(3_000, 3_150)]
    [InlineData(3_050, 3_202)]
    [InlineData(5_000, 5_250)]
    [InlineData(500, 1_150)] // iPpsCLMin 1 A
    public void CurrentAboveTheLimit_IsNotLimited(int asked, int most)
    {
        string At(int amps) => Vbus.Found(Vbus.Settled(Vbus.Pps(9_000, asked), 9_000, 400, Vbus.Samples(60, 9_000, amps)));

        At(most).Should().BeEmpty();
        At(most + 1).Should().Be("pps-current-limit-wrong fails");
    }

    [Theory]
    [InlineData(56, 5_000, "")] // 275 ms
    [InlineData(57, 5_000, "pps-current-limit-wrong fails")]
    [InlineData(2, 275_001, "pps-current-limit-wrong cannot tell")]
    [InlineData(3, 137_501, "pps-current-limit-wrong fails")]
    public void GettingHoldOfTheCurrent_MayTakeItsTime(int samples, long everyUs, string found) =>
        Vbus.Found(Vbus.Settled(Vbus.Pps(9_000, 2_000), 9_000, 400, Vbus.Samples(samples, 9_000, 2_500), everyUs)).Should().Be(found);

    [Theory]
    [InlineData(3_000, 2_850, 2_849)]
    [InlineData(5_000, 4_750, 4_749)]
    public void LimitingSource_MayLetTheVoltageFall(int asked, int limiting, int below)
    {
        string At(int amps) => Vbus.Found(Vbus.Settled(Vbus.Pps(9_000, asked), 9_000, below, Vbus.Samples(60, 6_000, amps)));

        At(limiting).Should().BeEmpty();
        At(below).Should().Be("vbus-outside-tolerance fails");
    }

    [Fact]
    public void PowerLimitedSource_MayLimitSooner() =>
        Vbus.Found(Vbus.Settled(Vbus.Pps(11_000, 3_000, limited: true), 11_000, 0, Vbus.Samples(60, 9_900, 2_450))).Should().BeEmpty();
}
