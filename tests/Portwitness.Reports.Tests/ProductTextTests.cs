using Portwitness.Contracts.V1;
using Portwitness.Reports.Text;

namespace Portwitness.Reports.Tests;

public sealed class ProductTextTests
{
    [Theory]
    [InlineData(Verdict.Holds, "HOLDS")]
    [InlineData(Verdict.Fails, "FAILS")]
    [InlineData(Verdict.CannotTell, "CANNOT TELL")]
    public void Verdict_IsTheSecondLineInWords(Verdict verdict, string word)
    {
        string text = Write(new ProductReport { Product = "Tarnholt TH-65", Verdict = verdict });

        text.Should().StartWith($"Tarnholt TH-65\nVerdict: {word}\n\nFindings: none\n");
    }

    [Fact]
    public void Statements_PortsAndCautions_ComeInThatOrder()
    {
        string text = Write(new ProductReport
        {
            Product = "Tarnholt TH-65",
            Verdict = Verdict.CannotTell,
            Cautions = { "Do not open mains adapters." },
            NextSteps = { "Capture C2 alone." },
            Label = new Label { Unread = { new UnreadSpan { Line = 2, Column = 5, Text = "???" } } },
            Statements =
            {
                new Statement { Claim = "C1 gives 9 V 3 A", LabelLine = 1, LabelColumn = 9, Verdict = Verdict.Holds, Evidence = "object 2" },
                new Statement { Claim = "C2 gives 9 V 2 A", LabelLine = 2, LabelColumn = 9, Verdict = Verdict.CannotTell, NextStep = "capture C2" },
            },
            Ports = { new PortReport { Port = "C1", Arrangements = { new ArrangementReport { InUse = { "C1", "C2" }, File = "c1", Edition = "R3.2" } } } },
        });

        text.Should().EndWith("""

            What the label says
              Of 2 printed statements 1 hold, 0 fail, 1 cannot be told.
              HOLDS        C1 gives 9 V 3 A (line 1, column 9)
                           object 2
              CANNOT TELL  C2 gives 9 V 2 A (line 2, column 9)
                           next: capture C2

            Port C1 offered
              in use C1 + C2; c1; edition R3.2
                no capability list was seen

            Label text not read:
              line 2, column 5  ???

            Next steps
              - Capture C2 alone.

            Cautions
              - Do not open mains adapters.

            """.ReplaceLineEndings("\n"));
    }

    private static string Write(ProductReport report)
    {
        using StringWriter writer = new() { NewLine = "\n" };
        ProductText.Write(writer, report, TextStyle.Plain);
        return writer.ToString();
    }
}
