using Portwitness.Contracts.V1;
using Portwitness.Reports.Text;

namespace Portwitness.Reports.Tests;

public sealed class WrappingTests
{
    [Fact]
    public void LongSentence_WrapsUnderItsFirstWordAndKeepsUnitsWithNumbers()
    {
        string text = Write("A source of this much power owes 3 A at 15 V, and this one does not.", 44);

        text.Should().Contain("    found     A source of this much power\n              owes 3 A at 15 V, and this one\n              does not.\n");
    }

    [Fact]
    public void LongWord_IsNeverCut()
    {
        string word = "0x" + new string('A', 200);

        Write($"the word {word} stands alone", 60).Should().Contain($"\n              {word}\n");
    }

    private static string Write(string detail, int width)
    {
        using StringWriter writer = new() { NewLine = "\n" };
        DecodedCapture capture = new() { Findings = { new Finding { Rule = "a-rule", Detail = detail } } };
        CaptureText.Write(writer, capture, new TextStyle(false, width));
        return writer.ToString();
    }
}
