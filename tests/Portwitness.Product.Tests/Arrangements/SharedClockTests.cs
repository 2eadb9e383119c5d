using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Findings;
using Portwitness.Product.Arrangements;

namespace Portwitness.Product.Tests.Arrangements;

/// <summary>Captures that know of each other's attaches: by an offset, by the dates of their headers, or because they are one file.</summary>
public class SharedClockTests
{
    private const string Rows =
        """
        {"t":0,"event":"attach","port":"C1"}
        {"t":120000,"sop":"SOP","hex":"A1212C9101082CD10200","port":"C1"}
        {"t":122000,"sop":"SOP","hex":"82102CB10423","port":"C1"}
        {"t":124000,"sop":"SOP","hex":"A303","port":"C1"}
        {"t":224000,"sop":"SOP","hex":"A605","port":"C1"}
        {"t":900000,"vbus_mv":9000,"ibus_ma":1000,"port":"C1"}
        {"t":1000000,"event":"attach","port":"C2"}
        {"t":1030000,"vbus_mv":200,"ibus_ma":0,"port":"C1"}
        {"t":1130000,"sop":"SOP","hex":"A1112C910108","port":"C2"}
        {"t":1132000,"sop":"SOP","hex":"82102CB10413","port":"C2"}
        {"t":1134000,"sop":"SOP","hex":"A303","port":"C2"}
        {"t":1200000,"vbus_mv":200,"ibus_ma":0,"port":"C1"}
        {"t":1234000,"sop":"SOP","hex":"A605","port":"C2"}
        {"t":1241000,"vbus_mv":9000,"ibus_ma":1000,"port":"C1"}
        {"t":2000000,"vbus_mv":9000,"ibus_ma":1000,"port":"C1"}

        """;

    // Requests are for 3 A: the words of shared/vectors/requests.json.
    [Fact]
    public void OneFile_HoldsBothPorts()
    {
        string text = """{"capture":1,"ports":["C1","C2"],"in_use":[],"measured_at":"source","accuracy":{"vbus_mv":10}}""" + "\n" + Rows;

        ProductAnalysis analysis = PortsTogether.Check("product: x\ncaptures:\n  - {file: f, port: C1}\n  - {file: f, port: C2}\n", [Utf8(text), Utf8(text)]);

        analysis.Faults.Should().BeEmpty();
        Transition one = analysis.Attached("C2");
        (one.Port, one.AtUs, one.UncertaintyUs).Should().Be(("C1", 1_000_000, 0));
        (one.Interruption!.StartUs, one.Interruption.EndUs, one.Interruption.DeepestMillivolts).Should().Be((1_030_000, 1_241_000, 200));
        analysis.Arrangements!.Rows.Should().Contain(row => row.Port == "C2" && row.Offer.InUse.SequenceEqual(new[] { "C1", "C2" }));
    }

    [Theory]
    [InlineData("offset: 900ms", 900_000)]
    [InlineData("offset: -50ms", -50_000)]
    public void Offset_SaysWhenTheOtherBegan(string offset, long micros)
    {
        ProductAnalysis analysis = PortsTogether.Check(
            "", new PortCapture("C1", Own()), new PortCapture("C2", Other(), $"with: f0, {offset}"));

        Transition one = analysis.Attached("C2");
        (one.Port, one.AtUs, one.UncertaintyUs).Should().Be(("C1", micros + 1_000_000, 0));
        one.InUse.Should().Equal("C1", "C2");
    }

    // A header's date is often of whole seconds: the time may be off by one.
    [Theory]
    [InlineData("2026-03-09T21:04:10Z", "2026-03-09T21:04:11Z", 2_000_000, 1_000_000)]
    [InlineData("2026-03-09T21:04:10.5Z", "2026-03-09T21:04:11.25Z", 1_750_000, 0)]
    [InlineData("2026-03-09T22:04:10.5+01:00", "2026-03-09T21:04:11.25Z", 1_750_000, 0)]
    public void Started_TellsItToo(string own, string other, long at, long uncertainty)
    {
        ProductAnalysis analysis = PortsTogether.Check(
            "", new PortCapture("C1", Own($"started: {own}\n")), new PortCapture("C2", Other($"started: {other}\n")));

        Transition one = analysis.Attached("C2");
        (one.AtUs, one.UncertaintyUs).Should().Be((at, uncertainty));
    }

    [Fact]
    public void UncertainClock_AccusesNobody()
    {
        string dip = Own("started: 2026-03-09T21:04:10Z\n").Replace(
            "measure 9V 1A every 10ms for 4s", "measure 9V 1A every 1ms for 1750ms, measure 0.2V 0A every 1ms for 200ms, measure 9V 1A every 10ms for 2s", StringComparison.Ordinal);

        ProductAnalysis analysis = PortsTogether.Check(
            "", new PortCapture("C1", dip), new PortCapture("C2", Other("started: 2026-03-09T21:04:11Z\n")));

        Finding finding = analysis.Of("neighbour-interrupted").Single();
        finding.Verdict.Should().Be(Verdict.CannotTell);
        finding.Detail.Should().Contain("give or take 1000 ms");
        finding.NextStep.Should().Contain("one clock");
    }

    // Dates that are copied from header to header, and captures of different days, tell nothing.
    [Theory]
    [InlineData("2026-03-09T21:04:10Z", "2026-03-10T21:04:10Z")]
    [InlineData("2026-03-09T21:04:10Z", "")]
    public void WithoutAClock_NothingIsTold(string own, string other)
    {
        ProductAnalysis analysis = PortsTogether.Check(
            "", new PortCapture("C1", Own($"started: {own}\n")), new PortCapture("C2", Other(other.Length > 0 ? $"started: {other}\n" : "")));

        analysis.Arrangements!.Transitions.Should().BeEmpty();
    }

    [Fact]
    public void RingOfOffsets_TellsNothing()
    {
        ProductAnalysis analysis = PortsTogether.Check(
            "", new PortCapture("C1", Own(), "with: f1, offset: 1s"), new PortCapture("C2", Other(), "with: f0, offset: 1s"));

        analysis.Arrangements!.Transitions.Should().BeEmpty();
    }

    [Fact]
    public void FloodOfEvents_IsBounded()
    {
        string flood = Other().Replace("- pause 1s", "- pause 1s\n  - repeat 100000: [attach C1, detach C1]", StringComparison.Ordinal);

        ProductAnalysis analysis = PortsTogether.Check("", new PortCapture("C1", Own()), new PortCapture("C2", flood, "with: f0, offset: 1s"));

        analysis.Arrangements!.Rows.Length.Should().BeLessThan(1000);
        analysis.Arrangements.Transitions.Length.Should().BeLessThan(3000);
    }

    private static byte[] Utf8(string text) => System.Text.Encoding.UTF8.GetBytes(text);

    private static string Own(string members = "") =>
        members
        + """
        port: C1
        in_use: [C1]
        edition: R3.0
        measured_at: source
        accuracy: {vbus_mv: 10}
        source: [5V 3A, 9V 3A]
        steps: [attach, advertise, contract 2 at 3A no-suspend, measure 9V 1A every 10ms for 4s]
        """;

    // C2 is attached one second after its capture begins.
    private static string Other(string members = "") =>
        members
        + """
        port: C2
        in_use: [C1, C2]
        edition: R3.0
        source: [5V 3A]
        steps:
          - pause 1s
          - attach
          - advertise
          - contract 1 at 3A no-suspend
        """;
}
