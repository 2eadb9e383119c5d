using System.Text;
using Portwitness.Analysis.Conversation;
using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Findings;
using Portwitness.Captures;
using Portwitness.Captures.Waveforms;
using Portwitness.PowerDelivery.Framing;

namespace Portwitness.Analysis.Tests.Rules;

/// <summary>
/// The rules about how frames are sent. Sources: R3.2v1.1, 5.8.1 (fBitRate 270 to 330 kbit/s), 5.6.1.1 (preamble of 64 bits), 5.3
/// (4b5b). The source's message has a header of A1 11, the sink's one of 82 10.
/// </summary>
public class LineRuleTests
{
    private const string FromSource = "\"sop\":\"SOP\",\"hex\":\"A1112C91010A\",\"crc_ok\":true";
    private const string FromSink = "\"sop\":\"SOP\",\"hex\":\"821045150543\",\"crc_ok\":true";

    [Theory]
    [InlineData("\"bit_rate\":269000,\"bit_rate_pm\":100", Verdict.Fails)]
    [InlineData("\"bit_rate\":331000,\"bit_rate_pm\":100", Verdict.Fails)]
    [InlineData("\"bit_rate\":269000,\"bit_rate_pm\":1000", Verdict.CannotTell)]
    [InlineData("\"bit_rate\":331000,\"bit_rate_pm\":1500", Verdict.CannotTell)]
    [InlineData("\"bit_rate\":250000", Verdict.CannotTell)]
    [InlineData("\"bit_rate\":270000,\"bit_rate_pm\":100", null)]
    [InlineData("\"bit_rate\":330000,\"bit_rate_pm\":100", null)]
    [InlineData("\"jitter_ns\":900", null)]
    public void BitRate_IsJudgedAsFarAsTheRecordingTellsIt(string quality, Verdict? verdict) =>
        (Single("bit-rate-outside-limits", $"{FromSource},{quality}")?.Verdict).Should().Be(verdict);

    [Theory]
    [InlineData(64, null)]
    [InlineData(63, null)]
    [InlineData(62, Verdict.CannotTell)]
    [InlineData(60, Verdict.CannotTell)]
    [InlineData(59, Verdict.Fails)]
    [InlineData(10, Verdict.Fails)]
    public void Preamble_IsJudgedWithRoomForTheInstrument(int bits, Verdict? verdict) =>
        (Single("preamble-too-short", $"{FromSource},\"preamble_bits\":{bits}")?.Verdict).Should().Be(verdict);

    // tInterFrameGap is 25 us (Table 5.18). A frame of six bytes has 64 + 5 · 25 bits, 630 us at 300 kbit/s; a hundredth of the rate, 0.25 %
    // of drift (5.8.1) and the steps of both stamps are 4.2 us.
    [Theory]
    [InlineData(1_655, 300, 64, null)]
    [InlineData(1_654, 300, 64, Verdict.CannotTell)]
    [InlineData(1_651, 300, 64, Verdict.CannotTell)]
    [InlineData(1_650, 300, 64, Verdict.Fails)]
    [InlineData(1_650, 3_000, 64, Verdict.CannotTell)]
    [InlineData(1_610, 300, 52, Verdict.Fails)] // twelve bits that were not heard, 40 us
    [InlineData(1_616, 300, 52, null)]
    public void Gap_IsJudgedAsFarAsTheRecordingTellsIt(int second, int within, int preamble, Verdict? verdict)
    {
        string Quality(int bits) => $"\"bit_rate\":300000,\"bit_rate_pm\":{within},\"preamble_bits\":{bits}";
        const string header = "{\"capture\":1,\"time_of\":\"start\",\"resolution_us\":1}\n";
        string frames = $"{{\"t\":1000,{FromSink},{Quality(preamble)}}}\n{{\"t\":{second},{FromSource},{Quality(64)}}}\n";

        Of(header + frames).Should().Be(verdict);
        Of(header.Replace(",\"time_of\":\"start\"", "", StringComparison.Ordinal) + frames).Should().BeNull("nobody says what the stamps name");

        static Verdict? Of(string capture) =>
            Analyse(capture).Findings.SingleOrDefault(finding => finding.Rule == "frame-gap-too-short")?.Verdict;
    }

    [Fact]
    public void GapAcrossASignal_IsNotKnown() => Analyse(
        $"{{\"capture\":1,\"time_of\":\"start\",\"resolution_us\":1}}\n{{\"t\":1000,{FromSink},\"bit_rate\":300000,\"bit_rate_pm\":30,\"preamble_bits\":64}}\n"
        + "{\"t\":1100,\"signal\":\"hard-reset\"}\n" + $"{{\"t\":1640,{FromSource},\"bit_rate\":300000,\"bit_rate_pm\":30,\"preamble_bits\":64}}\n")
        .Findings.Should().NotContain(finding => finding.Rule == "frame-gap-too-short");

    // Where a recorder loses samples, frames side by side break, and what is left of others is not what was sent. A frame of six bytes has
    // 64 + 5 · 25 bits, 700 us at 270 kbit/s: it ends by 10,700.
    [Theory]
    [InlineData(7_999, null, true)]
    [InlineData(8_000, null, false)]
    [InlineData(9_700, null, false)]
    [InlineData(null, 12_700, false)]
    [InlineData(null, 12_701, true)]
    public void FrameBesideABrokenOne_IsNoEvidence(int? brokeBefore, int? brokeAfter, bool judged)
    {
        (string Quality, string Rule)[] faulty =
            [("\"preamble_bits\":37", "preamble-too-short"), ("\"bit_rate\":250000,\"bit_rate_pm\":1", "bit-rate-outside-limits")];
        foreach ((string quality, string rule) in faulty)
        {
            CaptureAnalysis analysis = Analyse(
                "{\"capture\":1}\n" + Broken(brokeBefore) + $"{{\"t\":10000,{FromSource},{quality}}}\n" + Broken(brokeAfter) + "{\"t\":90000,\"rp\":\"3A\"}\n");

            analysis.Findings.Any(finding => finding.Rule == rule).Should().Be(judged, "{0} to {1}", brokeBefore, brokeAfter);
            analysis.Faults.Should().ContainSingle(fault => fault.Code == "frame-broken");
        }

        static string Broken(int? at) => at is null ? "" : $"{{\"t\":{at},\"broke\":\"edge-misplaced\",\"bit\":70}}\n";
    }

    // A long frame that broke ends where it broke: 9 ms behind its beginning.
    [Theory]
    [InlineData(11_900, false)]
    [InlineData(12_100, true)]
    public void FrameBehindALongBrokenOne_IsNoEvidence(int at, bool judged) => Analyse(
        $"{{\"capture\":1}}\n{{\"t\":1000,\"broke\":\"edge-misplaced\",\"bit\":2700,\"broke_at\":10000}}\n{{\"t\":{at},{FromSource},\"preamble_bits\":37}}\n")
        .Findings.Any(finding => finding.Rule == "preamble-too-short").Should().Be(judged);

    [Fact]
    public void FrameBesideAWrongCrc_IsNoEvidence()
    {
        string wrong = FromSource.Replace("true", "false", StringComparison.Ordinal);

        Analyse($"{{\"capture\":1}}\n{{\"t\":9000,{wrong}}}\n{{\"t\":10000,{FromSource},\"preamble_bits\":37}}\n").Findings
            .Should().NotContain(finding => finding.Rule == "preamble-too-short");
    }

    [Theory]
    [InlineData(3_000, false)]
    [InlineData(6_000, true)]
    public void FramesThatStopSideBySide_AreNoEvidence(int second, bool told) => Analyse(
        $"{{\"capture\":1}}\n{{\"t\":2000,\"broke\":\"not-ended\",\"bit\":90}}\n{{\"t\":{second},\"broke\":\"not-ended\",\"bit\":90}}\n")
        .Findings.Any(finding => finding.Rule == "frame-not-ended").Should().Be(told);

    // A recording whose recorder lost samples around 0.362 s, as frames that broke on either side of a whole one show: nobody's fault.
    [Fact]
    public void RecordingThatLostSamples_AccusesNobody()
    {
        CaptureAnalysis analysis = Analyse(File.ReadAllBytes(
            Portwitness.Tests.Repository.PathOf("tests", "Portwitness.Analysis.Tests", "Data", "lost-samples.vcd.gz")));

        analysis.Faults.Count(fault => fault.Code == "frame-broken").Should().Be(6);
        analysis.MessageCount.Should().BePositive();
        analysis.Findings.Should().NotContain(finding => finding.Rule == "preamble-too-short" || finding.Rule == "frame-not-ended");
    }

    [Fact]
    public void SinksFrame_IsANote_AndAWrongCrcSaysNothing()
    {
        Finding note = Single("bit-rate-outside-limits", $"{FromSink},\"bit_rate\":250000,\"bit_rate_pm\":10")!;
        note.Severity.Should().Be(Severity.Note);
        string wrong = FromSource.Replace("true", "false", StringComparison.Ordinal);
        Single("bit-rate-outside-limits", $"{wrong},\"bit_rate\":250000,\"bit_rate_pm\":10").Should().BeNull();
    }

    [Theory]
    [InlineData("not-ended", "frame-not-ended")]
    [InlineData("symbol-invalid", "symbol-invalid")]
    [InlineData("recording-stopped", null)]
    [InlineData("edge-misplaced", null)]
    public void BrokenFrame_AccusesNobody_AndIsToldOf(string why, string? rule)
    {
        CaptureAnalysis analysis = Analyse($"{{\"capture\":1}}\n{{\"t\":1000,\"sop\":\"SOP\",\"broke\":\"{why}\",\"bit\":94,\"part\":\"A1\"}}\n");
        analysis.Findings.Select(finding => finding.Rule).Should().Equal(rule is null ? [] : [rule]);
        analysis.Findings.All(finding => finding.Verdict == Verdict.CannotTell && finding.Severity == Severity.Caution).Should().BeTrue();
        CaptureFault fault = analysis.Faults.Should().ContainSingle(f => f.Code == "frame-broken").Subject;
        analysis.Timeline.Should().ContainSingle().Which.Meaning.Should().StartWith("at bit 94: ");
        fault.Detail.Should().Contain("0.001000 s broke at bit 94").And.Contain("SOP, A1 was read");
    }

    [Theory]
    [InlineData(262_000, true)]
    [InlineData(275_000, false)]
    [InlineData(335_000, true)]
    public void RecordedLine_IsJudged(int rate, bool breaks)
    {
        MemoryStream stream = new();
        using (VcdWriter writer = new(stream, new LineShape { BitsPerSecond = rate, JitterNs = 40 }))
        {
            writer.OnHeader(new CaptureHeader { Format = "capture" });
            for (int i = 0; i < 5; i++)
            {
                writer.OnMessage(new MessageRecord
                {
                    TimeUs = 2000 * i, Line = 0, Sop = SopKind.Sop, Bytes = Convert.FromHexString("A1112C91010A"),
                });
            }
        }

        CaptureAnalysis analysis = Analyse(Encoding.UTF8.GetString(stream.ToArray()));
        Finding[] found = [.. analysis.Findings.Where(finding => finding.Rule == "bit-rate-outside-limits")];
        found.Should().HaveCount(breaks ? 1 : 0);
        found.All(finding => finding.Verdict == Verdict.Fails && finding.Repeats == 4).Should().BeTrue();
        analysis.MessageCount.Should().Be(5);
    }

    // Whatever stood there could not be read: what it may explain accuses nobody.
    [Theory]
    [InlineData("five-amp-offer-without-cable-check", "[SOP, SOP']", "advertise", "event")]
    [InlineData("invalid-request-accepted", "[SOP]", "advertise, send sink Request 0x5304B12C, accept, ready", "Accept")]
    public void BrokenFrame_LeavesOpenWhatItMayExplain(string rule, string records, string steps, string before)
    {
        string[] lines = Encoding.UTF8.GetString(Synthesised.Bytes(
            $"edition: R3.2\nrecords_sop: {records}\nsource: [5V 3A, 9V 3A, 15V 3A, 20V 5A]\nsteps: [attach, {steps}]"))
            .Split('\n', StringSplitOptions.RemoveEmptyEntries);
        int at = before == "event" ? 2 : Array.FindIndex(lines, line => line.Contains("\"hex\":\"A3", StringComparison.Ordinal));
        string time = lines[at].Split(',')[0];

        Verdict? Of(IEnumerable<string> capture) => Analyse(string.Join('\n', capture)).Findings.SingleOrDefault(finding => finding.Rule == rule)?.Verdict;

        Of(lines).Should().Be(Verdict.Fails);
        Of([.. lines[..at], $"{time},\"broke\":\"not-ended\",\"bit\":70}}", .. lines[at..]]).Should().Be(Verdict.CannotTell);
    }

    private static Finding? Single(string rule, string members) =>
        Analyse($"{{\"capture\":1}}\n{{\"t\":1000,{members}}}\n").Findings.SingleOrDefault(finding => finding.Rule == rule);

    private static CaptureAnalysis Analyse(string capture) => Analyse(Encoding.UTF8.GetBytes(capture));

    private static CaptureAnalysis Analyse(byte[] capture)
    {
        CaptureAnalyzer analyzer = new(new CaptureOptions { File = "test" });
        analyzer.Write(capture);
        CaptureAnalysis analysis = analyzer.Complete();
        GoldenFindings.Check(analysis.Findings);
        return analysis;
    }
}
