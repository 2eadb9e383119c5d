using Portwitness.Captures.Formats;
using Portwitness.Captures.Measurements;

namespace Portwitness.Captures.Tests.Tables;

/// <summary>Where and how well measurements were taken, in words; the units are the SI's, so that values follow by arithmetic.</summary>
public class MeasuringWordsTests
{
    [Theory]
    [InlineData("volts=0.05%+5mV,amps=0.1%+5mA", 5, 500, 5, 1000)]
    [InlineData("amps=200ppm, volts=0.01V", 10, null, null, 200)]
    [InlineData("volts=5mV+0.1%", 5, 1000, null, null)]
    [InlineData("amps=0A", null, null, 0, null)]
    public void Accuracy_IsReadInMillionthsAndThousandths(string text, int? millivolts, int? voltsPpm, int? milliamperes, int? ampsPpm)
    {
        MeasuringWords.TryParseAccuracy(text, out MeasuringAccuracy? accuracy).Should().BeTrue();
        accuracy.Should().Be(new MeasuringAccuracy(millivolts, voltsPpm, milliamperes, ampsPpm));
    }

    [Theory]
    [InlineData("volts=0.4mV", 1)]
    [InlineData("volts=1.0001mV", 2)]
    [InlineData("volts=2mV", 2)]
    public void Accuracy_IsNeverTakenToBeBetterThanStated(string text, int millivolts)
    {
        MeasuringWords.TryParseAccuracy(text, out MeasuringAccuracy? accuracy).Should().BeTrue();
        accuracy!.VbusMillivolts.Should().Be(millivolts);
    }

    [Theory]
    [InlineData("")]
    [InlineData("0.1%")]
    [InlineData("volts")]
    [InlineData("volts=")]
    [InlineData("volts=5")]
    [InlineData("volts=5mA")]
    [InlineData("volts=-5mV")]
    [InlineData("volts=1%+2%")]
    [InlineData("volts=1%,volts=2%")]
    [InlineData("volts=1%,watts=2%")]
    [InlineData("volts=101%")]
    [InlineData("volts=1e30mV")]
    public void WhatIsNoAccuracy_IsRefused(string text)
    {
        MeasuringWords.TryParseAccuracy(text, out MeasuringAccuracy? accuracy).Should().BeFalse();
        accuracy.Should().BeNull();
    }

    [Theory]
    [InlineData("source", MeasuringPoint.Source)]
    [InlineData("sink", MeasuringPoint.Sink)]
    [InlineData("tester", MeasuringPoint.Tester)]
    public void Points_AreThoseOfTheCaptureFormat(string text, MeasuringPoint point)
    {
        MeasuringWords.TryParsePoint(text, out MeasuringPoint read).Should().BeTrue();
        read.Should().Be(point);
        MeasuringWords.TryParsePoint(text.ToUpperInvariant(), out _).Should().BeFalse();
    }

    [Fact]
    public void WhatIsSaidOfTheMeasurements_GoesBeforeTheHeader()
    {
        Recording recording = new();
        CaptureInput input = new(recording, new CaptureReadOptions
        {
            Measurements = new MeasurementOptions { MeasuredAt = MeasuringPoint.Sink, Accuracy = new(1, 2, 3, 4) },
        });
        input.Write("{\"capture\":1,\"port\":\"C1\",\"measured_at\":\"source\",\"accuracy\":{\"vbus_mv\":9}}\n"u8);
        input.WriteMeasurements("time (s),volts (V)\n0.5,5.1\n"u8);
        input.Complete();
        recording.Header.MeasuredAt.Should().Be(MeasuringPoint.Sink);
        recording.Header.Accuracy.Should().Be(new MeasuringAccuracy(1, 2, 3, 4));
    }
}
