using Portwitness.Contracts.V1;
using Portwitness.Reports.Html;

namespace Portwitness.Reports.Tests;

/// <summary>What a product's page says in words; how it looks is tested with a browser.</summary>
public sealed class ProductPageTextTests
{
    [Fact]
    public void CountsOfTheHead_AgreeWithStatementsAndFindings()
    {
        ProductReport report = new()
        {
            Product = "x", Verdict = Verdict.Fails,
            Statements =
            {
                new Statement { Claim = "a", Verdict = Verdict.Holds, LabelLine = 1, LabelColumn = 1 },
                new Statement { Claim = "b", Verdict = Verdict.Fails, LabelLine = 2, LabelColumn = 1 },
            },
            Findings =
            {
                new Finding { Rule = "r", Severity = Severity.Mismatch, Verdict = Verdict.Fails, LabelLine = 2 },
                new Finding { Rule = "r", Severity = Severity.Mismatch, Verdict = Verdict.Fails },
                new Finding { Rule = "r", Severity = Severity.Caution, Verdict = Verdict.CannotTell },
            },
        };

        Page(report).Should().Contain("Of 2 printed statements 1 hold, 1 fail, 0 cannot be told. 1 finding that fails the product is of no printed statement.");
    }

    /// <summary>Ports go by the label's spelling, which the report states: "usb_c 1" is its C1.</summary>
    [Theory]
    [InlineData("C1", true)]
    [InlineData("C2", false)]
    [InlineData("usb_c 1", false)]
    public void PrintedRatings_AreDrawnForThePortThatTheLabelNames(string labelPort, bool isDrawn)
    {
        ProductReport report = new()
        {
            Product = "x",
            Label = new Label
            {
                Text = "USB-C1: 5V⎓3A",
                Outputs = { new PrintedOutput { Port = "C1", Fixed = { new PrintedFixed { VoltageMv = 5000, CurrentMa = 3000, Line = 1, Column = 9 } } } },
            },
            Ports =
            {
                new PortReport
                {
                    Port = "usb_c 1",
                    Arrangements =
                    {
                        new ArrangementReport
                        {
                            InUse = { "usb_c 1" }, LabelPort = labelPort, LabelInUse = { labelPort },
                            Offered = new Advertisement { Objects = { new PowerObject { Position = 1, Fixed = new FixedSupply { VoltageMv = 5000, MaxCurrentMa = 3000 } } } },
                        },
                    },
                },
            },
        };

        Page(report).Contains("printed rating", StringComparison.Ordinal).Should().Be(isDrawn);
    }

    private static string Page(ProductReport report)
    {
        using StringWriter writer = new();
        ProductPage.Write(writer, report);
        return writer.ToString();
    }
}
