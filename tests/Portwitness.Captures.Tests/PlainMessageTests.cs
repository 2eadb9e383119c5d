using System.Text;
using CsCheck;

namespace Portwitness.Captures.Tests;

/// <summary>
/// Message lines in the form that this program writes are read a shorter way. A blank behind the first brace means the same in
/// JSON (RFC 8259) and leads past it: both ways must agree on every line, whole or damaged.
/// </summary>
public class PlainMessageTests
{
    private const string Header = "{\"capture\":1}\n";
    private const string Before = Header + "{\"t\":500,\"sop\":\"SOP\",\"hex\":\"8100\"}\n";

    private static readonly string[] Lines =
    [
        "{\"t\":1042,\"sop\":\"SOP\",\"hex\":\"A1412C9101082CD102002CB1040045410600\",\"crc\":\"424F168A\",\"crc_ok\":true}",
        "{\"t\":0,\"sop\":\"SOP'\",\"hex\":\"8100\"}",
        "{\"t\":9,\"sop\":\"SOP''\",\"hex\":\"81fF\",\"crc_ok\":false}",
        "{\"t\":31536000000000,\"sop\":\"SOP'_Debug\",\"hex\":\"8100\",\"crc\":\"00000000\"}",
    ];

    [Fact]
    public void Line_IsReadToWhatItSays()
    {
        Recording read = Recording.Of(Header + Lines[0] + "\n" + Lines[0].Replace("1042", "1043", StringComparison.Ordinal));

        read.Faults.Should().BeEmpty();
        read.Messages.Select(message => (message.TimeUs, message.Line, message.Hex, message.Crc, message.CrcOk)).Should().Equal(
            (1042, 2, "A1412C9101082CD102002CB1040045410600", 0x8A164F42, true),
            (1043, 3, "A1412C9101082CD102002CB1040045410600", 0x8A164F42, true));
    }

    [Theory]
    [InlineData("{\"t\":00,\"sop\":\"SOP\",\"hex\":\"8100\"}")]
    [InlineData("{\"t\":-1,\"sop\":\"SOP\",\"hex\":\"8100\"}")]
    [InlineData("{\"t\":99999999999999999999,\"sop\":\"SOP\",\"hex\":\"8100\"}")]
    [InlineData("{\"t\":9999999999999999,\"sop\":\"SOP\",\"hex\":\"8100\"}")]
    [InlineData("{\"t\":600,\"sop\":\"SOP\",\"hex\":\"81\"}")]
    [InlineData("{\"t\":600,\"sop\":\"SOP\",\"hex\":\"810\"}")]
    [InlineData("{\"t\":600,\"sop\":\"SOP\",\"hex\":\"81G0\"}")]
    [InlineData("{\"t\":600,\"sop\":\"SOP\",\"hex\":\"8100\",\"crc\":\"4\"}")]
    [InlineData("{\"t\":600,\"sop\":\"SOP\",\"hex\":\"8100\",\"crc\":\"424F168A42\"}")]
    [InlineData("{\"t\":600,\"sop\":\"SOP\",\"hex\":\"8100\",\"crc_ok\":1}")]
    [InlineData("{\"t\":600,\"sop\":\"SOP\",\"hex\":\"8100\"}}")]
    [InlineData("{\"t\":600,\"sop\":\"SOP\",\"hex\":\"8100\",\"x\":1}")]
    [InlineData("{\"t\":600,\"sop\":\"SOP\",\"hex\":\"8100\",\"hex\":\"8101\"}")]
    [InlineData("{\"t\":400,\"sop\":\"SOP\",\"hex\":\"8100\"}")]
    public void OtherLines_AreReadTheLongWay(string line) => BothWays(line);

    [Fact]
    public void TooLongMessage_IsReadTheLongWay() => BothWays($"{{\"t\":600,\"sop\":\"SOP\",\"hex\":\"{new string('0', 2000)}\"}}");

    [Fact]
    public void DamagedLine_IsReadToTheSameBothWays() => Gen.Select(
        Gen.Int[0, Lines.Length - 1], Gen.Select(Gen.Int[0, 200], Gen.Char["0123456789ABCDEFabcdef\"{}:,'tsophexcrc_truefalse -."]).Array[0, 3]).Sample(
        static (index, edits) =>
        {
            StringBuilder line = new(Lines[index]);
            foreach ((int at, char character) in edits)
            {
                if (at > 0 && at < line.Length)
                {
                    line[at] = character;
                }
            }

            BothWays(line.ToString());
        },
        iter: 20_000);

    private static void BothWays(string line)
    {
        Recording plain = Recording.Of(Before + line);
        Recording spaced = Recording.Of(Before + "{ " + line[1..]);

        plain.Messages.Should().BeEquivalentTo(spaced.Messages, options => options.WithStrictOrdering(), line);
        plain.Faults.Select(fault => (fault.Line, fault.Code)).Should().Equal(spaced.Faults.Select(fault => (fault.Line, fault.Code)), line);
    }
}
