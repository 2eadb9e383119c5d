namespace Portwitness.Captures.Tests;

/// <summary>
/// Real logs. Words: computed from the fixed supply's and the request's bit tables (R3.2v1.1, Tables 6.9 and 6.23), those of
/// 5, 9, 15 and 20 V also among the check vectors of the Linux kernel's own macros. Bytes here are as on the wire.
/// </summary>
public class KernelLogFileTests
{
    // Bits 31 to 25 and 19 to 0 of a fixed supply are printed, 24 to 20 are not.
    private const string FixedKnown = "FFFF0FFE";

    // Position, mismatch and operating current of a request are printed.
    private const string RequestKnown = "00FC0FF4";

    [Fact]
    public void Log02_TwoObjectsAndARequestThatIsAccepted()
    {
        Recording read = Recording.OfFile("kernel-log-02.log");

        read.Faults.Should().BeEmpty();
        read.Format.Should().Be("kernel-log");
        read.Header.Should().Be(new CaptureHeader { Format = "kernel-log" });
        read.Messages.Select(m => (m.TimeUs, m.Line, m.Hex, m.Known)).Should().Equal(
            (682420, 19, "6121" + "2C910108" + "C8D00200", "FFFF" + FixedKnown + FixedKnown),
            (683109, 26, "4210" + "00200320", "FFFF" + RequestKnown),
            (688842, 29, "6303", ""),
            (865331, 32, "6605", ""));
        read.Events.Select(e => (e.TimeUs, e.Name, e.Value)).Should().Equal(
            (0, "rp", "3A"), (125206, "vbus-on", null), (170098, "attach", null), (326976, "vbus-on", null));
        read.Signals.Should().BeEmpty();
    }

    [Fact]
    public void Log05_TwoAttachesWithTheSameObjects()
    {
        const string objects = "2C91010A" + "2CD10200" + "2CB10400" + "45410600";
        const string known = "FFFF" + FixedKnown + FixedKnown + FixedKnown + FixedKnown;
        Recording read = Recording.OfFile("kernel-log-05.log");

        read.Faults.Should().BeEmpty();
        read.Messages.Select(m => (m.TimeUs, m.Hex, m.Known)).Should().Equal(
            (310181, "8D00", ""),
            (316010, "A301", ""),
            (320340, "A143" + objects, known),
            (320518, "8212" + "00B00420", "FFFF" + RequestKnown),
            (326271, "A305", ""),
            (436433, "A607", ""),
            (436560, "8F14" + "00000000", "FFFF" + "00000000"),
            (440644, "AF19" + "81A000FF", ""),
            (1037403281, "A141" + objects, known),
            (1037403495, "8210" + "00B00420", "FFFF" + RequestKnown),
            (1037414459, "A303", ""),
            (1037561291, "A605", ""),
            (1037561568, "8F12" + "00000000", "FFFF" + "00000000"),
            (1037568035, "AF17" + "81A000FF", ""));
        read.Events.Where(e => e.Name is "attach" or "detach").Select(e => (e.TimeUs, e.Line, e.Name)).Should().Equal(
            (0, 1, "attach"), (1033893183, 49, "detach"), (1037267280, 72, "attach"));
    }

    [Fact]
    public void Log08_FirstRequestIsRejectedAndSecondAcceptedAfterAHardReset()
    {
        const string objects = "2C910108" + "2CD10200" + "FAC00300" + "C8B00400" + "96400600";
        const string known = "FFFF" + FixedKnown + FixedKnown + FixedKnown + FixedKnown + FixedKnown;
        Recording read = Recording.OfFile("kernel-log-08.log");

        read.Faults.Should().BeEmpty();
        read.Messages.Select(m => (m.Hex, m.Known)).Should().Equal(
            ("6151" + objects, known),
            ("4210" + "00200344", "FFFF" + RequestKnown),
            ("6403", ""),
            ("6151" + objects, known),
            ("4210" + "00200344", "FFFF" + RequestKnown),
            ("6303", ""),
            ("6605", ""),
            ("6F17" + "018000FF", ""),
            ("4F12" + "00000000", "FFFF" + "00000000"));
        read.Signals.Should().Equal(new SignalRecord(671687, 46, SignalKind.HardReset));
        read.Messages[2].TimeUs.Should().BeLessThan(671687);
        read.Messages[3].TimeUs.Should().BeGreaterThan(671687);
        read.Events.Select(e => (e.Name, e.Value)).Should().Equal(
            ("vbus-off", null), ("rp", "3A"), ("vbus-on", null), ("attach", null), ("vbus-off", null), ("vbus-on", null));
    }
}
