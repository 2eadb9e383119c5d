using Portwitness.Captures;
using Portwitness.PowerDelivery.Framing;
using Portwitness.Testing;

namespace Portwitness.Synthesis.Tests;

/// <summary>What each step writes. Headers and codes: R3.2v1.1 Tables 6.1, 6.5, 6.6, 6.53 and the sheet's check vectors.</summary>
public class StepTests
{
    // R3.2v1.1 Tables 6.23 to 6.26; R1, R5 and the AVS words are of shared/vectors/requests.json, others from the tables.
    [Theory]
    [InlineData("request 1 at 3A", "1004B12C")]
    [InlineData("request 2 at 3A mismatch usb-communications", "2604B12C")]
    [InlineData("request 1 at 0.5A", "1000C832")]
    [InlineData("request 4 at 45W", "4002D0B4")]
    [InlineData("request 5 at 3A", "5004B12C")]
    [InlineData("request 7 at 9V 3A no-suspend usb-communications", "7303843C")]
    [InlineData("request 6 at 3A 12.3V", "6003D83C")]
    [InlineData("request 3 at 5A epr unchunked give-back", "38C7D1F4")]
    [InlineData("request 0xF3051545", "F3051545")]
    public void Request_HasTheShapeOfItsObject(string step, string word) =>
        Synthesised.Steps("advertise", step).Only("Request").Hex.Should().Be("8210" + Reversed(word));

    [Theory]
    [InlineData("request 8 at 5A", "8047D1F4", "0008C1F4")]
    [InlineData("request 9 at 28V 5A", "9048C064", "D230968C")]
    [InlineData("request 2 at 3A", "2044B12C", "0002D12C")]
    [InlineData("request 0x1004B12C", "1004B12C", "0001912C")]
    public void RequestInEprMode_CarriesACopyOfTheObject(string step, string request, string copy) =>
        Synthesised.Steps("advertise", "enter-epr at 140W", step).Only("EPR_Request").Hex[4..]
            .Should().Be(Reversed(request) + Reversed(copy));

    [Theory]
    [InlineData("accept", "A301")]
    [InlineData("reject", "A401")]
    [InlineData("wait", "AC01")]
    [InlineData("ready", "A601")]
    [InlineData("not-supported", "B001")]
    [InlineData("not-supported sink", "9000")]
    [InlineData("get-source-cap", "8700")]
    [InlineData("get-sink-cap", "A801 84202C910110E1400600")]
    [InlineData("soft-reset", "8D00 A301")]
    [InlineData("soft-reset source", "AD01 8300")]
    [InlineData("exit-epr", "8A1000000005")]
    [InlineData("exit-epr source", "AA1100000005")]
    [InlineData("keep-alive", "909002800300 B09102800400")]
    [InlineData("send source Get_Revision", "B801")]
    [InlineData("send source Revision 0x32110000", "AC1100001132")]
    [InlineData("send source PPS_Status C201 3C00", "ACA10480C2013C000000")]
    [InlineData("raw sink 8210451505 43", "821045150543")]
    public void Step_SendsItsMessages(string step, string messages) =>
        Synthesised.Steps(step).Spoken.Select(message => message.Hex).Should().Equal(messages.Split(' '));

    [Fact]
    public void EveryMessage_IsAcknowledgedByTheOtherSideWithItsMessageId()
    {
        Synthesised capture = Synthesised.Steps(
            "attach", "discover-cable", "advertise", "contract 2 at 3A", "keep-alive every 1s for 20s", "send sink Get_Status");

        for (int i = 0; i < capture.Messages.Count; i += 2)
        {
            (SentMessage message, SentMessage answer) = (capture.Messages[i], capture.Messages[i + 1]);
            answer.Name.Should().Be("GoodCRC");
            (answer.Sop, answer.Header.MessageId).Should().Be((message.Sop, message.Header.MessageId));
            answer.Header.SourceOrCablePlug.Should().Be(!message.Header.SourceOrCablePlug);
            answer.Header.DownstreamFacing.Should().Be(message.Sop == SopKind.Sop && !message.Header.DownstreamFacing);
        }

        foreach (var side in capture.Spoken.GroupBy(message => (message.Sop, message.Header.SourceOrCablePlug)))
        {
            side.Select(message => message.Header.MessageId).Should().Equal(Enumerable.Range(0, side.Count()).Select(id => id % 8));
        }

        capture.Messages.Should().OnlyContain(message => message.Crc == MessageCrc.Of(message.Bytes) && message.CrcOk == null);
    }

    [Theory]
    [InlineData("hard-reset", 0, 0)]
    [InlineData("detach", 0, 0)]
    [InlineData("attach", 0, 0)]
    [InlineData("cable-reset", 2, 0)]
    [InlineData("pause 1s", 2, 1)]
    public void Resets_BeginMessageIdsAnew(string step, int onSop, int onSopPrime)
    {
        Synthesised capture = Synthesised.Steps("advertise", "accept", "discover-cable", step, "advertise", "discover-cable");

        capture.Spoken.Last(message => message.Name == "Source_Capabilities").Header.MessageId.Should().Be(onSop);
        capture.Spoken.Last(message => message.Hex.EndsWith("01A000FF")).Header.MessageId.Should().Be(onSopPrime);
    }

    [Fact]
    public void Events_AreRecordedAtTheirPort()
    {
        Synthesised capture = Synthesised.Steps(
            "attach", "attach C2", "load-on", "load-off", "rp 3A", "line bc1.2-dcp A1", "detach C2", "detach", "hard-reset");

        capture.Events.Select(e => $"{e.Name} {e.Port} {e.Value}".TrimEnd()).Should().Equal(
            "attach C1", "vbus-on", "attach C2", "load-on", "load-off", "rp  3A", "line A1 bc1.2-dcp", "detach C2", "detach C1",
            "vbus-off", "vbus-vsafe0v", "vbus-on");
        capture.Signals.Single().Kind.Should().Be(SignalKind.HardReset);
        Synthesised.Steps("cable-reset").Signals.Single().Kind.Should().Be(SignalKind.CableReset);
    }

    [Fact]
    public void Measurements_AreWrittenAtTheirTimes()
    {
        Synthesised capture = Synthesised.Steps("measure 5.08V 0.09A", "measure -12mA", "measure 19.94V every 5ms for 20ms", "pause 1.5s", "measure 5V");

        capture.Measurements.Select(m => (m.TimeUs, m.VbusMillivolts, m.IbusMilliamperes)).Should().Equal(
            (0, 5080, 90), (0, null, -12), (0, 19940, null), (5_000, 19940, null), (10_000, 19940, null), (15_000, 19940, null),
            (1_520_000, 5000, null));
    }

    [Fact]
    public void Repeat_TakesItsStepsAgain()
    {
        Synthesised capture = Synthesised.Steps(
            "repeat 2: [measure 1V, {repeat 3: [measure 2V]}]", "repeat 2 every 1s: [measure 3V]", "repeat every 100ms for 250ms: [measure 4V]");

        capture.Measurements.Select(m => (m.TimeUs, m.VbusMillivolts)).Should().Equal(
            (0, 1000), (0, 2000), (0, 2000), (0, 2000), (0, 1000), (0, 2000), (0, 2000), (0, 2000),
            (0, 3000), (1_000_000, 3000), (2_000_000, 4000), (2_100_000, 4000));
    }

    [Theory]
    [InlineData("3A", "8F1001A000FF 8F5141A000FF00006018000000000000000020200811")]
    [InlineData("5A", "8F1001A000FF 8F5141A000FF00006018000000000000000040200811")]
    [InlineData("EPR captive", "8F1001A000FF 8F5141A000FF000060180000000000000000 40260E11")]
    [InlineData("5A silent", "8F1001A000FF 8F1001A000FF 8F1001A000FF")]
    [InlineData("captive", "8F1001A000FF 8F1001A000FF 8F1001A000FF")]
    [InlineData("none", "8F1001A000FF 8F1001A000FF 8F1001A000FF")]
    public void DiscoverCable_IsAnsweredAsTheCableIs(string cable, string messages)
    {
        Synthesised capture = Synthesised.Of($"cable: {cable}\nsteps: [discover-cable]");

        string.Join("", capture.Spoken.Select(message => message.Hex)).Should().Be(messages.Replace(" ", ""));
        capture.Messages.Should().OnlyContain(message => message.Sop == SopKind.SopPrime);
    }

    [Fact]
    public void CableOfRevision20_AnswersInItsLayout()
    {
        Synthesised capture = Synthesised.Of("revision: 2.0\ncable: 5A\nsteps: [discover-cable, discover-cable 3A silent]");

        // Structured VDM 1.0: 0xFF008001, 0xFF008041; no voltage, VBUS through cable in bit 4; nRetryCount is 3.
        capture.Spoken.Select(message => message.Hex).Should().Equal(
            "4F10018000FF", "4F51418000FF00000018000000000000000050200811", "4F12018000FF", "4F12018000FF", "4F12018000FF", "4F12018000FF");
    }

    [Theory]
    [InlineData("5A", "", 1)]
    [InlineData("EPR silent", "", 1)]
    [InlineData("EPR", " fails 4", 4)]
    public void EnteringEpr_FailsWithItsReason(string cable, string suffix, int reason)
    {
        Synthesised capture = Synthesised.Of(
            $"cable: {cable}\nsource: [5V 3A epr, 28V 5A]\nsteps: [advertise, 'enter-epr at 140W{suffix}', advertise]");

        capture.Spoken.Last(message => message.Name == "EPR_Mode").Hex.Should().EndWith($"0000{reason:X2}04");
        capture.Spoken.Should().NotContain(message => message.Name == "EPR_Source_Capabilities");
    }

    [Fact]
    public void Header_StatesWhatTheScriptSays()
    {
        CaptureHeader header = Synthesised.Of(
            """
            port: C1
            in_use: [C1, C2]
            attach_order: [C2, C1]
            product: Tarnholt TH-65 wall charger
            sample: 3
            started: 2026-03-02T09:14:07+02:00
            edition: 3.2
            cable: EPR captive
            steps: [pause 1s]
            """).Header;

        header.Should().BeEquivalentTo(new CaptureHeader
        {
            Format = "capture", Port = "C1", InUse = ["C1", "C2"], AttachOrder = ["C2", "C1"], Product = "Tarnholt TH-65 wall charger",
            Sample = "3", Started = new DateTimeOffset(2026, 3, 2, 9, 14, 7, TimeSpan.FromHours(2)), Edition = "R3.2",
            Cable = new CaptureCable(true, 5000, true), TimeOf = MessageMoment.Start, ResolutionUs = 1,
        });
        Synthesised.Of("cable: none\nsteps: [pause 1s]").Header.Cable.Should().BeNull();
    }

    [Theory]
    [InlineData("edition: R2.0", 1)]
    [InlineData("revision: 2.0", 1)]
    [InlineData("revision: 3.x", 2)]
    [InlineData("port: C1", 2)]
    public void Revision_IsThatOfAllHeaders(string member, int code) =>
        Synthesised.Of(member + "\nsource: [5V 3A]\nsteps: [advertise]").Messages
            .Should().OnlyContain(message => message.Header.RevisionCode == code);

    private static string Reversed(string word) =>
        Convert.ToHexString([.. Convert.FromHexString(word).Reverse()]);
}
