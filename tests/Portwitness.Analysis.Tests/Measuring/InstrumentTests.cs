using Portwitness.Analysis.Measuring;
using Portwitness.Captures;

namespace Portwitness.Analysis.Tests.Measuring;

/// <summary>What is taken for an instrument (captures/FORMAT.md).</summary>
public class InstrumentTests
{
    [Theory]
    [InlineData(null, null, 20_000, 250)] // 50 mV and 1 %
    [InlineData(10, null, 20_000, 10)]
    [InlineData(null, 500, 20_000, 10)]
    [InlineData(5, 500, 20_000, 15)]
    [InlineData(0, 1, 20_000, 1)] // rounded up
    [InlineData(0, 0, 20_000, 0)]
    [InlineData(0, 1_000, -5_000, 5)]
    public void UncertaintyOfVoltage_IsWhatIsStated(int? millivolts, int? ppm, int value, int expected) =>
        new Instrument(MeasuringPoint.Source, new MeasuringAccuracy(millivolts, ppm, null, null), 1).OfVoltage(value).Should().Be(expected);

    [Fact]
    public void NothingStated_IsTakenToBePoorAndSaid()
    {
        Instrument instrument = new(MeasuringPoint.Unknown, null, null);

        (instrument.OfVoltage(9_000), instrument.OfCurrent(3_000)).Should().Be((140, 110));
        (instrument.TimeUncertaintyUs, instrument.StatesTime, instrument.StatesVoltage).Should().Be((1_000, false, false));
        instrument.Text(9_000).Should().Be("measured at a point that is not stated, ±140 mV taken, as no accuracy is stated");
    }

    [Fact]
    public void Statement_IsRepeatedInWords()
    {
        MeasuringAccuracy accuracy = new(5, 500, 5, 1_000);
        new Instrument(MeasuringPoint.Source, accuracy, 10).Text(20_000).Should().Be("measured at the source, ±15 mV");
        new Instrument(MeasuringPoint.Sink, accuracy, 10).Text(20_000).Should().Be("measured at the sink, ±15 mV");
        new Instrument(MeasuringPoint.Tester, accuracy, 10).Text(20_000).Should().Be("measured at a tester, ±15 mV");
        new Instrument(MeasuringPoint.Tester, accuracy, 10).OfCurrent(3_000).Should().Be(8);
    }
}
