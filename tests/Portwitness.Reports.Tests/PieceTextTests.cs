using Portwitness.Contracts.V1;
using Portwitness.Reports.Csv;
using Portwitness.Reports.Html;
using Portwitness.Reports.Markdown;
using Portwitness.Reports.Text;

namespace Portwitness.Reports.Tests;

/// <summary>Pieces of one capture are told apart by their times; a capture of one piece needs none.</summary>
public sealed class PieceTextTests
{
    [Theory]
    [InlineData(502_000, "502 ms")]
    [InlineData(12_549_000, "12.5 s")]
    [InlineData(602_137_000, "10 min 2 s")]
    [InlineData(11_100_000_000, "3 h 5 min")]
    public void Duration_IsShort(long microseconds, string expected) => Amounts.Duration(microseconds).Should().Be(expected);

    [Fact]
    public void Pieces_HaveTheirTimes()
    {
        PortReport port = new() { Port = "C1", Arrangements = { Piece(3_250, 1, 0, 602_000_000, ""), Piece(2_250, 9, 602_000_000, 607_000_000, "list") } };
        ProductReport report = new() { Ports = { port } };

        foreach (Action<TextWriter, ReportSet> write in new Action<TextWriter, ReportSet>[] { ProductText.Write, MarkdownReport.Write, ProductPage.Write })
        {
            string text = string.Join(' ', SampleReports.Write(write, SampleReports.SetOf(report)).Replace("\\", "", StringComparison.Ordinal)
                .Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
            text.Should().Contain("from 0.000000 s for 10 min 2 s").And.Contain("from 602.000000 s (list) for 5 s").And.Contain("3.25 A").And.Contain("2.25 A");
        }

        SampleReports.Write(OfferCsv.Write, SampleReports.SetOf(report)).Should().Contain(",602000000\r\n").And.Contain(",5000000\r\n");
        port.Arrangements.RemoveAt(1);
        ProductText.About(port, port.Arrangements[0]).Should().NotContain("from ");
    }

    [Fact]
    public void Row_TellsBothOffers()
    {
        PortInArrangement row = new() { Port = "C1", InUse = { "C1" }, OfferedMw = 45_000, OfferedBeforeMw = 65_000, OfferedBeforeForUs = 602_000_000 };

        using StringWriter writer = new();
        ArrangementText.Arrangements([row]).Write(writer, "");
        writer.ToString().Should().Contain("65 W for 10 min 2 s, then 45 W");
    }

    private static ArrangementReport Piece(int milliamperes, long message, long fromUs, long untilUs, string beganWith) => new()
    {
        File = "c1", InUse = { "C1" }, Edition = "R3.0", Periods = { new OfferPeriod { FromUs = fromUs, UntilUs = untilUs, BeganWith = beganWith } },
        Offered = new Advertisement
        {
            Message = "Source_Capabilities", MessageIndex = message,
            Objects = { new PowerObject { Position = 1, Fixed = new() { VoltageMv = 20_000, MaxCurrentMa = milliamperes } } },
        },
    };
}
