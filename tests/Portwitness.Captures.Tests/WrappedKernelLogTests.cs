namespace Portwitness.Captures.Tests;

/// <summary>Logs of the kernel that went through a mail: lines wrapped by the program that sent it, or encoded (RFC 2045, 6.7).</summary>
public class WrappedKernelLogTests
{
    private static readonly string Whole = File.ReadAllText(Recording.PathOf("kernel-log-02.log"));

    [Theory]
    [InlineData(40, "")]
    [InlineData(50, "> ")]
    [InlineData(60, "> > ")]
    [InlineData(72, "")]
    public void WrappedLog_SaysWhatTheWholeOneSays(int columns, string marks)
    {
        Recording plain = Recording.Of(Whole);
        Recording read = Recording.Of(string.Concat(Whole.Split('\n').SelectMany(line => Wrap(line, columns)).Select(line => $"{marks}{line}\n")));

        read.Format.Should().Be("kernel-log");
        read.Messages.Select(static message => (message.TimeUs, message.Hex, message.Known))
            .Should().Equal(plain.Messages.Select(static message => (message.TimeUs, message.Hex, message.Known)));
        read.FaultCodes.Should().Equal(plain.FaultCodes);
    }

    [Fact]
    public void EncodedLog_SaysWhatTheWholeOneSays()
    {
        Recording plain = Recording.Of(Whole);
        Recording read = Recording.Of(string.Concat(Whole.Split('\n').Select(static line =>
            line.Length > 45 ? $"{line[..43]}=\n{line[43..]}=20\n" : line + "=20\n")));

        read.Messages.Select(static message => (message.TimeUs, message.Hex, message.Known))
            .Should().Equal(plain.Messages.Select(static message => (message.TimeUs, message.Hex, message.Known)));
        read.FaultCodes.Should().Equal(plain.FaultCodes);
    }

    [Fact]
    public void MismatchOfAWrappedRequest_IsRead()
    {
        const string log = "[    1.886496] Requesting PDO 1: 9000 mV, 2000 mA [mismatch]\n[    1.886500] PD TX, header: 0x1082\n";

        Recording read = Recording.Of(log.Replace(" [mismatch]", "\n[mismatch]", StringComparison.Ordinal));

        read.Faults.Should().BeEmpty();
        read.Messages.Single().Hex.Should().Be(Recording.Of(log).Messages.Single().Hex);
    }

    // What follows a cut line and does not go on with it leaves the fault where it is.
    [Fact]
    public void ProseBehindACutLine_IsNotPartOfIt()
    {
        Recording read = Recording.Of(
            "[    1.886496] PD RX, header: 0x11a1 [1]\n[    1.886500]  PDO 0: type 0, 5000 mV,\nthat is where it ends\n[    1.886510] PD TX, header: 0x1082\n");

        read.Faults.Should().Contain(static fault => fault.Line == 2 && fault.Code == "log-line-unreadable");
        read.Messages.Should().HaveCount(2);
    }

    // As mailers do: at the last blank before the column.
    private static IEnumerable<string> Wrap(string line, int columns)
    {
        while (line.Length > columns && line.LastIndexOf(' ', columns) is > 15 and int blank)
        {
            yield return line[..blank];
            line = line[(blank + 1)..];
        }

        yield return line;
    }
}
