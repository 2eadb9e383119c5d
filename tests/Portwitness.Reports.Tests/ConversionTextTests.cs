using Portwitness.Contracts.V1;
using Portwitness.Reports.Text;

namespace Portwitness.Reports.Tests;

public sealed class ConversionTextTests
{
    [Fact]
    public void MovedTimes_AreSaid()
    {
        Conversion conversion = new() { From = "capture", To = "vcd", MovedCount = 12 };
        conversion.Moved.AddRange(Enumerable.Range(1, 12).Select(at => new MovedRecord { Kind = "messages", FromUs = at, ToUs = 1_000_000 + at }));
        StringWriter text = new() { NewLine = "\n" };

        ConversionText.Write(text, conversion, "out.vcd");

        text.ToString().Should().Contain("Moved, because frames of a line follow one another at least 25 µs apart: 12 times\n")
            .And.Contain("  a message at 0.000001 s is at 1.000001 s\n").And.Contain("  and 2 more\n").And.NotContain("0.000011");
    }
}
