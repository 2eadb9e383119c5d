using System.Globalization;

namespace Portwitness.Captures.Tests;

/// <summary>
/// Line forms: the kernel's tcpm_log_source_caps, tcpm_pd_build_request and tcpm_pd_build_pps_request, before and after the
/// patch of October 2025 that names the APDOs. Words: check vectors of the kernel's own macros and of the R3.2v1.1 bit
/// tables; bits that no kernel prints are zero here.
/// </summary>
public class KernelLogReaderTests
{
    [Theory]
    [InlineData("0, 5000 mV, 3000 mA []", 0x0001912Cu, 0xFE0FFFFFu)]
    [InlineData("0, 5000 mV, 3000 mA [E]", 0x0801912Cu, 0xFE0FFFFFu)]
    [InlineData("0, 5000 mV, 3000 mA [UDE]", 0x0E01912Cu, 0xFE0FFFFFu)]
    [InlineData("0, 5000 mV, 3000 mA [RSHUDE]", 0x3E01912Cu, 0xFE0FFFFFu)]
    [InlineData("0, 5000 mV, 3000 mA [SHU]", 0x1401912Cu, 0xFE0FFFFFu)]
    [InlineData("0, 48000 mV, 5000 mA []", 0x000F01F4u, 0xFE0FFFFFu)]
    [InlineData("1, 3300-21000 mV, 60000 mW", 0x5A4108F0u, 0xFFFFFFFFu)]
    [InlineData("2, 4750-5500 mV, 3000 mA", 0x86E17D2Cu, 0xFFFFFFFFu)]
    [InlineData("3, 3300-11000 mV, 3000 mA", 0xC0DC213Cu, 0xF1FEFF7Fu)]
    [InlineData("3, PPS 5000-21000 mV, 5000 mA", 0xC1A43264u, 0xF1FEFF7Fu)]
    [InlineData("3, EPR AVS 15000-28000 mV 140 W peak_current: 0", 0xD230968Cu, 0xFFFEFFFFu)]
    [InlineData("3, EPR AVS 15000-48000 mV 240 W peak_current: 3", 0xDFC096F0u, 0xFFFEFFFFu)]
    [InlineData("3, EPR AVS 15000-15000 mV 140 W peak_current: 0", 0xD000968Cu, 0xFC00FFFFu)]
    [InlineData("3, SPR AVS 9-15 V: 4000 mA 15-20 V: 3350 mA peak_current: 0", 0xE006414Fu, 0xFC0FFFFFu)]
    [InlineData("3, undefined APDO", 0xC0000000u, 0xC0000000u)]
    public void CapabilityLine_GivesTheWordAndWhatIsKnownOfIt(string text, uint word, uint known)
    {
        KeptMessage message = Read("PD RX, header: 0x11a1 [1]", " PDO 0: type " + text).Messages.Single();

        message.Hex.Should().Be("A111" + Wire(word));
        (message.Known.Length == 0 ? "FFFFFFFFFFFF" : message.Known).Should().Be("FFFF" + Wire(known));
    }

    [Theory]
    [InlineData("PDO 1: 9000 mV, 3000 mA", 0x2004B000u, 0xF40FFC00u)]
    [InlineData("PDO 1: 9000 mV, 3000 mA [mismatch]", 0x2404B000u, 0xF40FFC00u)]
    [InlineData("PDO 2: 15000 mV, 45000 mW", 0x3002D000u, 0xF40FFC00u)]
    [InlineData("PDO 1: 9000 mV, 2222 mA", 0x20000000u, 0xF4000000u)]
    [InlineData("APDO 4: 8220 mV, 2500 mA", 0x50033632u, 0xF01FFE7Fu)]
    [InlineData("APDO 4: 8225 mV, 2500 mA", 0x50000032u, 0xF000007Fu)]
    [InlineData("APDO SPR AVS 4: 12300 mV, 3000 mA", 0x5003D83Cu, 0xF01FFE7Fu)]
    public void RequestLine_GivesTheFieldsItShows(string text, uint word, uint known)
    {
        Recording read = Read("Requesting " + text, "PD TX, header: 0x1082");

        read.Faults.Should().BeEmpty();
        read.Messages.Single().Hex.Should().Be("8210" + Wire(word));
        read.Messages.Single().Known.Should().Be("FFFF" + Wire(known));
    }

    [Fact]
    public void RequestWithoutItsLine_IsUnknown() =>
        Read("PD TX, header: 0x1082").Messages.Single().Known.Should().Be("FFFF00000000");

    [Theory]
    [InlineData("PD RX, header: 0x364 [1]")]
    [InlineData("Received hard reset")]
    [InlineData("state change SNK_READY -> SNK_ATTACHED")]
    [InlineData("overflow")]
    [InlineData("PD TX, header: 0x8d")]
    public void RequestLineOfAnEarlierExchange_IsNotTakenForALaterRequest(string between) =>
        Read("Requesting PDO 1: 9000 mV, 3000 mA", between, "PD TX, header: 0x1082")
            .Messages[^1].Known.Should().Be("FFFF00000000");

    [Fact]
    public void FewerCapabilityLinesThanObjects_LeaveTheOthersUnknown()
    {
        Recording read = Read(
            "PD RX, header: 0x41a1 [1]", " PDO 0: type 0, 5000 mV, 3000 mA []", " PDO 3: type 0, 20000 mV, 3250 mA []", "VBUS off");

        read.Faults.Select(f => (f.Line, f.Code)).Should().Equal((1, "log-objects-missing"));
        read.Messages.Single().Hex.Should().Be("A141" + "2C910100" + "00000000" + "00000000" + "45410600");
        read.Messages.Single().Known.Should().Be("FFFF" + "FFFF0FFE" + "00000000" + "00000000" + "FFFF0FFE");
        read.Calls.Should().HaveCount(4).And.Subject.Last().Should().Contain("vbus-off");
    }

    [Theory]
    [InlineData("PD RX, hea")]
    [InlineData("PD RX, header: 0x21a1")]
    public void ObjectsOfAMessageWhoseLineIsBroken_AreNotGivenToTheOneAbove(string broken)
    {
        Recording read = Read("PD RX, header: 0x21a1 [1]", " PDO 0: type 0, 5000 mV, 3000 mA []", broken,
            " PDO 1: type 0, 9000 mV, 3000 mA []");

        read.FaultCodes.Should().BeEquivalentTo("log-line-unreadable", "log-objects-missing", "log-line-orphan");
        read.Messages.Single().Known.Should().Be("FFFF" + "FFFF0FFE" + "00000000");
    }

    [Fact]
    public void LinesOfOtherDriversBetween_DoNotMatter()
    {
        Recording read = Read(
            "PD message header: 11a1", "PD RX, header: 0x11a1 [1]", "PD message len: 4", "IRQ: 0x51, a: 0x00, b: 0x01, status0: 0x93",
            " PDO 0: type 0, 5000 mV, 3000 mA []", "sending PD message len: 6", "Requesting mux state 1, usb-role 2, orientation 2",
            "Setting voltage/current limit 5000 mV 3000 mA", "pending state change SNK_STARTUP -> SNK_ATTACHED @ 5 ms");

        read.Faults.Should().BeEmpty();
        read.Messages.Single().Hex.Should().Be("A1112C910100");
        read.Events.Should().BeEmpty();
    }

    [Fact]
    public void MessageThatTheKernelDropped_IsKeptWithUnknownObjects()
    {
        Recording read = Read("PD RX, header: 0x61a1 [0]", "PD RX, header: 0x1a3 [1]");

        read.Faults.Should().BeEmpty();
        read.Messages[0].Hex.Should().Be("A161" + new string('0', 48));
        read.Messages[0].Known.Should().Be("FFFF" + new string('0', 48));
        read.Events.Should().Equal(new EventRecord(0, 1, "dropped", null, null));
    }

    // The kernel's numbers: 0 success, 1 discarded, 2 failed (include/linux/usb/tcpm.h).
    [Theory]
    [InlineData(0, null)]
    [InlineData(1, "not-sent")]
    [InlineData(2, "not-acknowledged")]
    public void StatusOfASentMessage_BecomesAnEventUnlessItArrived(int status, string? name)
    {
        Recording read = Read("PD TX, header: 0x8d", $"PD TX complete, status: {status}");

        read.Messages.Single().CrcOk.Should().BeNull();
        read.Events.Select(e => (e.Line, e.Name)).Should().Equal(name is null ? [] : [(2L, name)]);
    }

    [Theory]
    [InlineData("PD TX, type: 0x5", SignalKind.HardReset)]
    [InlineData("PD TX, type: 0x6", SignalKind.CableReset)]
    [InlineData("Received hard reset", SignalKind.HardReset)]
    public void ResetLines_AreSignals(string text, SignalKind kind)
    {
        Recording read = Read("VBUS on", text, "PD TX complete, status: 2");

        read.Signals.Should().Equal(new SignalRecord(10, 2, kind));
        read.Events.Select(e => e.Name).Should().Equal("vbus-on");
    }

    [Fact]
    public void VdmLine_GivesTheFirstObject()
    {
        Recording read = Read("PD RX, header: 0x4faf [1]", "Rx VDM cmd 0xff00a041 type 1 cmd 1 len 4");

        read.Messages.Single().Hex.Should().Be("AF4F" + "41A000FF" + new string('0', 24));
        read.Messages.Single().Known.Should().Be("FFFF" + "FFFFFFFF" + new string('0', 24));
    }

    [Theory]
    [InlineData("CC1: 0 -> 3, CC2: 0 -> 0 [state TOGGLING, polarity 0, connected]", "default")]
    [InlineData("CC1: 0 -> 0, CC2: 5 -> 4 [state SNK_READY, polarity 1, connected]", "1.5A")]
    public void CcLines_ShowRp(string text, string value) =>
        Read(text).Events.Should().Equal(new EventRecord(0, 1, "rp", null, value));

    [Fact]
    public void Overflow_IsReportedAndEndsTheOpenList()
    {
        Recording read = Read("PD RX, header: 0x21a1 [1]", " PDO 0: type 0, 5000 mV, 3000 mA []", "overflow",
            " PDO 1: type 0, 9000 mV, 3000 mA []");

        read.FaultCodes.Should().Equal("log-objects-missing", "log-overflow", "log-line-orphan");
        read.Messages.Single().Known.Should().Be("FFFF" + "FFFF0FFE" + "00000000");
    }

    [Theory]
    [InlineData("PD RX, header: 0x61a1")]
    [InlineData("PD RX, header: 0x61a1f [1]")]
    [InlineData("PD RX, header: 61a1 [1]")]
    [InlineData("PD TX, header: 0x1082 ")]
    [InlineData("PD TX, type: 0x7")]
    [InlineData("PD TX complete, status: 9")]
    [InlineData("PDO 0: type 0, 5000 mV, 3000 mA")]
    [InlineData("PDO 0: type 0, 5000 mV, 3000 mA [X]")]
    [InlineData("PDO 0: type 0, 5001 mV, 3000 mA []")]
    [InlineData("PDO 0: type 0, 99999 mV, 3000 mA []")]
    [InlineData("PDO 0: type 0, 5000 mV, 3000 mA [ED]")]
    [InlineData("PDO 0: type 1, 3300-21000 mV, 3000 mA")]
    [InlineData("PDO 0: type 3, 3300-21000 mV, 60000 mW")]
    [InlineData("PDO 0: type 4, undefined")]
    [InlineData("PDO 0: type 3, EPR AVS 15000-28000 mV 140 W peak_current: 4")]
    [InlineData("PDO 9999999999: type 0, 5000 mV, 3000 mA []")]
    [InlineData("Requesting PDO 1: 9000 mV, 3000 mA ")]
    [InlineData("Requesting PDO 1: 9000 mV, 3000 mA [mis")]
    [InlineData("Requesting PDO 15: 9000 mV, 3000 mA")]
    [InlineData("Rx VDM cmd 0xff008001 type 0 cmd 1")]
    [InlineData("state change SNK_DEBOUNCED -&gt; SNK_ATTACHED")]
    [InlineData("VBUS perhaps")]
    [InlineData("CC1: 0 - 0")]
    public void LineThatLooksRightButIsNot_IsAFaultAndNothingElse(string text)
    {
        Recording read = Read("VBUS on", text);

        read.Faults.Select(f => (f.Line, f.Code)).Should().Equal((2, "log-line-unreadable"));
        read.Messages.Should().BeEmpty();
        read.Events.Should().ContainSingle();
    }

    [Fact]
    public void UnreadableLine_NamesColumnAndText() =>
        Recording.Of("[    1.886512]  PDO 0: type 0, 5000 mV; 3000 mA [E]").Faults[0].Should().Be(new CaptureFault(
            1, 36, "log-line-unreadable",
            "' mV; 3000 mA [E]' is not how the kernel goes on here; the line was not used. Copy the log as the kernel prints it."));

    [Theory]
    [InlineData(" PDO 0: type 0, 5000 mV, 3000 mA []")]
    [InlineData("Rx VDM cmd 0xff008001 type 0 cmd 1 len 1")]
    public void LineWithoutItsMessage_IsAnOrphan(string text) => Read("VBUS on", text).FaultCodes.Should().Equal("log-line-orphan");

    [Fact]
    public void ObjectBeyondTheHeadersCountOrListedTwice_IsAnOrphan()
    {
        Recording read = Read("PD RX, header: 0x31a1 [1]", " PDO 0: type 0, 5000 mV, 3000 mA []",
            " PDO 0: type 0, 9000 mV, 3000 mA []", " PDO 3: type 0, 9000 mV, 3000 mA []");

        read.FaultCodes.Should().Equal("log-line-orphan", "log-line-orphan", "log-objects-missing");
        read.Messages.Single().Hex.Should().StartWith("A1312C910100");
    }

    [Fact]
    public void ListingThatCountsFromOne_IsRefused()
    {
        Recording read = Recording.Of(
            "Source_Capabilities: 2 PDOs\n  PDO 1: Fixed 5000 mV / 2400 mA\n  PDO 2: Fixed 9000 mV / 2000 mA\n");

        read.FaultCodes.Should().Equal(
            "log-listing-unsupported", "log-listing-unsupported", "log-listing-unsupported", "log-without-records");
        read.Faults[0].Detail.Should().Contain("counts objects from 1");
        read.Messages.Should().BeEmpty();
        Read("VBUS on", "Source_Capabilities: 2 PDOs", " PDO 1: Fixed 5000 mV / 2400 mA").FaultCodes.Should()
            .Equal("log-listing-unsupported", "log-listing-unsupported");
    }

    [Fact]
    public void QuotedLog_IsReadAsIfItWereNotQuoted()
    {
        Recording read = Recording.Of(
            "> [    1.886496] PD RX, header: 0x11a1 [1]\n> > [    1.886512]  PDO 0: type 0, 5000 mV, 3000 mA []\n> [    1.9] x\n> [    1.900000] PD RX; he\n");

        read.Messages.Single().Hex.Should().Be("A1112C910100");
        read.FaultCodes.Should().BeEmpty();
    }

    [Fact]
    public void RequestThatTheMailWrapped_IsUnknownAndReported()
    {
        Recording read = Recording.Of("[    1.0] no time\n[    1.886590] Requesting PDO 3: 15000 mV, 2000 mA\n[mism\n"
            + "[    1.886597] PD TX, header: 0x1042\n");

        read.Faults.Select(f => (f.Line, f.Code)).Should().Equal((3, "log-line-unreadable"));
        read.Messages.Single().Known.Should().Be("FFFF00000000");
    }

    [Fact]
    public void LinesWithoutTimes_AreReportedIfTheySpeakOfMessages() =>
        Recording.Of("[    1.886496] VBUS on\nPD RX, header: 0x1a3 [1]\n$ exit\n").Faults.Select(f => (f.Line, f.Code))
            .Should().Equal((2, "log-line-unreadable"));

    [Fact]
    public void LogOfSomethingElse_IsReported() =>
        Recording.Of("[    1.886496] usb 1-1: new high-speed device\n").FaultCodes.Should().Equal("log-without-records");

    [Fact]
    public void SecondBoot_KeepsTheTimeOfTheLineAbove()
    {
        Recording read = Recording.Of("[   10.000000] VBUS on\n[   12.000000] VBUS off\n[    1.000000] VBUS on\n");

        read.Faults.Select(f => (f.Line, f.Code)).Should().Equal((3, "time-backwards"));
        read.Events.Select(e => e.TimeUs).Should().Equal(0, 2_000_000, 2_000_000);
    }

    /// <summary>Reads texts as lines ten microseconds apart.</summary>
    private static Recording Read(params string[] texts) => Recording.Of(string.Concat(texts.Select(
        (text, index) => string.Create(CultureInfo.InvariantCulture, $"[{1,5}.{index * 10:D6}] {text}\n"))));

    private static string Wire(uint word) => string.Concat(
        Enumerable.Range(0, 4).Select(at => ((word >> (8 * at)) & 0xFF).ToString("X2", CultureInfo.InvariantCulture)));
}
