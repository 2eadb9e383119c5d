using Portwitness.Captures.Waveforms;

namespace Portwitness.Captures.Tests.Waveforms;

/// <summary>Tables with a time and the voltages of both CC lines of a port, as two probes give them.</summary>
public class TwoCcColumnsTests
{
    private static readonly string[][] Rows =
        [.. WaveformFile.Samples(new SampleShape { Kind = SampleKind.Text, SampleRate = 5_000_000 }).Text().Split('\n', StringSplitOptions.RemoveEmptyEntries)
            .Skip(1).Select(static row => row.Split(','))];

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void TheLineWithFrames_IsRead(bool isFirst)
    {
        Recording read = Recording.Of(Table((row, _) => isFirst ? (row, "0.012") : ("0.012", row)));

        read.Format.Should().Be("samples");
        read.Messages.Should().HaveCount(WaveformFile.Conversation.Count(static sent => sent.Sop is not null)).And.OnlyContain(static message => message.CrcOk == true);
        read.Faults.Should().ContainSingle().Which.Detail.Should().Contain($"\"{(isFirst ? "CC1" : "CC2")}\" has frames");
    }

    // The silence between two messages is where the plug is turned.
    [Fact]
    public void TheOtherLine_GoesOnWhenThePlugIsTurned()
    {
        Recording read = Recording.Of(Table(static (row, time) => time < 2_200 ? (row, "1.680") : ("1.680", row)));

        read.Messages.Select(static message => message.Hex).Should().Contain(WaveformFile.Conversation[0].Hex);
        read.FaultCodes.Should().OnlyContain(static code => code == "signal-chosen");
    }

    [Fact]
    public void TwoLinesWithoutAFrame_SaySo() =>
        Recording.Of(Table(static (_, _) => ("0.012", "1.680"))).FaultCodes.Should().Equal("waveform-without-frames");

    // A column that cannot be read makes a gap in both lines.
    [Fact]
    public void UnreadableCell_IsAFault()
    {
        Recording read = Recording.Of(Table(static (row, time) => (row, time == 2_800 ? "?" : "0.012")));

        read.FaultCodes.Should().Contain("waveform-row-invalid");
        read.Messages[0].CrcOk.Should().BeTrue();
    }

    private static string Table(Func<string, long, (string, string)> cells) =>
        "time (s),CC1 (V),CC2 (V)\n" + string.Concat(Rows.Select(row =>
        {
            (string first, string second) = cells(row[1], (long)(decimal.Parse(row[0], System.Globalization.CultureInfo.InvariantCulture) * 1_000_000));
            return $"{row[0]},{first},{second}\n";
        }));
}
