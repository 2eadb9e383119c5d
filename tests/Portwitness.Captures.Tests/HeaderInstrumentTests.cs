using System.Text;
using Portwitness.Captures.JsonLines;
using Portwitness.PowerDelivery.Framing;

namespace Portwitness.Captures.Tests;

/// <summary>What a header states of the instrument (captures/FORMAT.md).</summary>
public class HeaderInstrumentTests
{
    [Theory]
    [InlineData("source", MeasuringPoint.Source)]
    [InlineData("sink", MeasuringPoint.Sink)]
    [InlineData("tester", MeasuringPoint.Tester)]
    public void MeasuringPoint_IsReadAndWrittenAgain(string word, MeasuringPoint point)
    {
        string line = $"{{\"capture\":1,\"measured_at\":\"{word}\"}}\n";

        Recording.Of(line).Header.MeasuredAt.Should().Be(point);
        Written(Recording.Of(line).Header).Should().Be(line);
    }

    [Theory]
    [InlineData("{\"vbus_mv\":5,\"vbus_ppm\":500,\"ibus_ma\":0,\"ibus_ppm\":1000000}", 5, 500, 0, 1_000_000)]
    [InlineData("{\"vbus_ppm\":500}", null, 500, null, null)]
    [InlineData("{}", null, null, null, null)]
    public void Accuracy_IsReadAndWrittenAgain(string accuracy, int? volts, int? voltsPpm, int? amperes, int? amperesPpm)
    {
        string line = $"{{\"capture\":1,\"accuracy\":{accuracy}}}\n";

        Recording.Of(line).Header.Accuracy.Should().Be(new MeasuringAccuracy(volts, voltsPpm, amperes, amperesPpm));
        Written(Recording.Of(line).Header).Should().Be(line);
    }

    [Fact]
    public void RecordedMessages_AreReadAndWrittenAgain()
    {
        const string line = "{\"capture\":1,\"records_sop\":[\"SOP\",\"SOP'\",\"SOP''\"]}\n";

        Recording.Of(line).Header.RecordsSop.Should().Equal(SopKind.Sop, SopKind.SopPrime, SopKind.SopDoublePrime);
        Written(Recording.Of(line).Header).Should().Be(line);
    }

    [Fact]
    public void NotStated_IsUnknown()
    {
        CaptureHeader header = Recording.Of("{\"capture\":1,\"measured_at\":null,\"accuracy\":null,\"records_sop\":null}\n").Header;

        (header.MeasuredAt, header.Accuracy, header.RecordsSop.Length).Should().Be((MeasuringPoint.Unknown, null, 0));
    }

    [Theory]
    [InlineData("\"measured_at\":\"port\"")]
    [InlineData("\"measured_at\":1")]
    [InlineData("\"accuracy\":5")]
    [InlineData("\"accuracy\":{\"vbus_mv\":-1}")]
    [InlineData("\"accuracy\":{\"vbus_mv\":1000001}")]
    [InlineData("\"accuracy\":{\"vbus_mv\":5,\"ibus_ppm\":0.5}")]
    [InlineData("\"accuracy\":{\"vbus_mv\":\"5\"}")]
    [InlineData("\"records_sop\":\"SOP\"")]
    [InlineData("\"records_sop\":[\"SOP\",\"sop'\"]")]
    [InlineData("\"records_sop\":[1]")]
    public void OtherValues_AreFaultsAndNotStated(string member)
    {
        Recording recording = Recording.Of($"{{\"capture\":1,{member}}}\n");

        recording.Faults.Should().ContainSingle();
        CaptureHeader header = recording.Header;
        (header.MeasuredAt, header.Accuracy, header.RecordsSop.Length).Should().Be((MeasuringPoint.Unknown, null, 0));
    }

    private static string Written(CaptureHeader header)
    {
        using MemoryStream written = new();
        using (CaptureWriter writer = new(written))
        {
            writer.OnHeader(header);
        }

        return Encoding.UTF8.GetString(written.ToArray());
    }
}
