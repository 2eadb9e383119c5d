using Portwitness.PowerDelivery.Limits;

namespace Portwitness.PowerDelivery.Tests.Limits;

/// <summary>The figures against each other and against what the words can carry.</summary>
public sealed class LimitsTests
{
    // R3.2v1.1, 6.2.1.2 and Table 6.84: ten chunks of 26 bytes are the longest block.
    [Fact]
    public void LongestBlock_FillsTheChunks() =>
        (MessageLimits.MaxChunks * MessageLimits.MaxExtendedMsgChunkLen).Should().Be(MessageLimits.MaxExtendedMsgLen);

    // R3.2v1.1, Table 10.11 (5.0 V); R3.0 era: 3.3 V and a 5 V Prog (a public driver source). The maxima are the same.
    [Fact]
    public void PpsRanges_ShareTheirMaxima()
    {
        AdjustableRanges.PpsFrom5V.Select(range => (range.Nominal, range.Maximum)).Should().Equal(
            AdjustableRanges.PpsFrom3V3.Skip(1).Select(range => (range.Nominal, range.Maximum)));
        AdjustableRanges.PpsFrom5V.Should().OnlyContain(range => range.Minimum.Millivolts == 5_000);
        AdjustableRanges.PpsFrom3V3.Should().OnlyContain(range => range.Minimum.Millivolts == 3_300);
        AdjustableRanges.PpsFrom5V[^1].Maximum.Millivolts.Should().Be(21_000);
        AdjustableRanges.PpsFrom3V3[0].Maximum.Millivolts.Should().Be(5_900);
    }

    [Fact]
    public void PpsRanges_BelongToTheEditionsThatMayHaveThem()
    {
        AdjustableRanges.PpsFrom5V.Should().OnlyContain(range => range.Editions == (Editions.R31 | Editions.R32));
        AdjustableRanges.PpsFrom3V3.Should().OnlyContain(range => range.Editions == (Editions.R30 | Editions.R31));
    }

    // R3.2v1.1, Tables 10.2 and 10.12.
    [Fact]
    public void AvsRanges_EndAtTheFixedVoltages()
    {
        AdjustableRanges.EprAvs.Select(range => range.Maximum).Should().Equal(Electrical.EprFixedVoltages);
        AdjustableRanges.EprAvs.Should().OnlyContain(range => range.Minimum.Millivolts == 15_000);
        AdjustableRanges.SprAvs.Select(range => range.Maximum).Should().Equal(Electrical.SprFixedVoltages.Skip(2));
        AdjustableRanges.SprAvs.Should().OnlyContain(range => range.Minimum.Millivolts == 9_000);
    }

    // 20 V times 5 A and 48 V times 5 A, in mV times mA.
    [Fact]
    public void LargestPowers_AreLargestVoltageTimesConnectorCurrent()
    {
        long amperes = Electrical.ConnectorMaximum.Milliamperes;
        (Electrical.SprMaximumFixed.Millivolts * amperes).Should().Be(Electrical.SprMaximumPdp.Milliwatts * 1000L);
        (Electrical.EprFixedVoltages[^1].Millivolts * amperes).Should().Be(Electrical.EprMaximumPdp.Milliwatts * 1000L);
    }
}
