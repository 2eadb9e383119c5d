using Portwitness.Contracts.V1;
using Portwitness.Reports.Csv;

namespace Portwitness.Reports.Tests;

public sealed class CsvTests
{
    public static TheoryData<string> Hostile => SampleReports.Hostile;

    // RFC 4180, 2: every record has as many fields as the heading; quotes are doubled.
    [Theory]
    [MemberData(nameof(Hostile))]
    public void HostileTexts_StayInTheirCells(string text)
    {
        foreach (Action<TextWriter, ReportSet> write in new Action<TextWriter, ReportSet>[] { FindingCsv.Write, OfferCsv.Write })
        {
            List<List<string>> records = Read(SampleReports.Write(write, SampleReports.SetOf(SampleReports.FilledWith(text))));

            records.Should().HaveCount(2);
            records[1].Should().HaveSameCount(records[0]);
            records[1].Where(static cell => cell.Length > 0).Should().NotContain(
                static cell => "=+-@＝＋－＠\t\r\n".Contains(cell.TrimStart(' ')[0], StringComparison.Ordinal));
            string.Concat(records[1]).Should().NotContainAny("\u001b", "\u202e", "\u2028", "\0", "\t");
        }
    }

    [Fact]
    public void Finding_HasEveryMemberUnderItsNameInTheContract()
    {
        List<List<string>> records = Read(SampleReports.Write(FindingCsv.Write, SampleReports.SetOf(SampleReports.FilledWith("x"))));

        records[0].Should().Contain(Finding.Descriptor.Fields.InDeclarationOrder().Select(field => field.Name));
    }

    [Fact]
    public void FormulaIsDefused_AndUnknownIsEmpty()
    {
        ProductReport report = new()
        {
            Product = "=HYPERLINK(\"x\")",
            Verdict = Verdict.CannotTell,
            Findings =
            {
                new Finding { Rule = "a-rule", Severity = Severity.Caution, Verdict = Verdict.CannotTell, TimeUs = 12, Observed = "-5 V" },
            },
        };

        SampleReports.Write(FindingCsv.Write, SampleReports.SetOf(report)).Should().EndWith(
            "\r\n\"bench/th-65/product.yaml\",\"'=HYPERLINK(\"\"x\"\")\",\"cannot_tell\",\"a-rule\",\"caution\",\"cannot_tell\""
            + ",,,,,,,12,,,,,\"'-5 V\",,0,,,,,,\r\n");
    }

    // Amounts of the objects' own fields; 20 V times 2.25 A is 45 W.
    [Theory]
    [MemberData(nameof(Objects))]
    public void Offer_HasItsAmounts(PowerObject offered, string expected)
    {
        ArrangementReport arrangement = new() { InUse = { "C1", "C2" }, File = "c1", Offered = new Advertisement { Objects = { offered } } };
        ProductReport report = new() { Ports = { new PortReport { Port = "C1", Arrangements = { arrangement, new ArrangementReport() } } } };

        List<List<string>> records = Read(SampleReports.Write(OfferCsv.Write, SampleReports.SetOf(report)));

        records.Should().HaveCount(2, "a port that listed nothing has no row");
        string.Join(',', records[1][records[0].IndexOf("kind")..records[0].IndexOf("remarks")]).Should().Be(expected);
    }

    public static TheoryData<PowerObject, string> Objects => new()
    {
        { new PowerObject { Fixed = new() { VoltageMv = 20_000, MaxCurrentMa = 2_250 } }, "fixed,20000,20000,2250,,45000" },
        { new PowerObject { Fixed = new() { VoltageMv = 20_000 } }, "fixed,20000,20000,,," },
        { new PowerObject { Battery = new() { MinVoltageMv = 5_000, MaxVoltageMv = 9_000, MaxPowerMw = 15_000 } }, "battery,5000,9000,,,15000" },
        { new PowerObject { Variable = new() { MinVoltageMv = 5_000, MaxVoltageMv = 9_000, MaxCurrentMa = 3_000 } }, "variable,5000,9000,3000,," },
        { new PowerObject { Pps = new() { MinVoltageMv = 3_300, MaxVoltageMv = 11_000, MaxCurrentMa = 3_000 } }, "PPS,3300,11000,3000,," },
        { new PowerObject { SprAvs = new() { MaxCurrent15VMa = 3_000, MaxCurrent20VMa = 2_250 } }, "SPR AVS,9000,20000,3000,2250," },
        { new PowerObject { SprAvs = new() { MaxCurrent15VMa = 3_000, MaxCurrent20VMa = 0 } }, "SPR AVS,9000,15000,3000,0," },
        { new PowerObject { EprAvs = new() { MinVoltageMv = 15_000, MaxVoltageMv = 28_000, PdpW = 140 } }, "EPR AVS,15000,28000,,,140000" },
        { new PowerObject { Padding = new Padding() }, "padding,,,,," },
        { new PowerObject { Reserved = new Reserved() }, "reserved,,,,," },
    };

    // A reader of RFC 4180, and of nothing else.
    private static List<List<string>> Read(string text)
    {
        List<List<string>> records = [[]];
        for (int at = 0; at < text.Length;)
        {
            string cell = "";
            if (text[at] == '"')
            {
                for (at++; text[at] != '"' || (at + 1 < text.Length && text[at + 1] == '"'); at++)
                {
                    at += text[at] == '"' ? 1 : 0;
                    cell += text[at];
                }

                at++;
            }
            else
            {
                int start = at;
                while (text[at] is not (',' or '\r'))
                {
                    text[at].Should().NotBe('"').And.NotBe('\n');
                    at++;
                }

                cell = text[start..at];
            }

            records[^1].Add(cell);
            if (text[at] == ',')
            {
                at++;
                continue;
            }

            text[at..(at + 2)].Should().Be("\r\n");
            at += 2;
            if (at < text.Length)
            {
                records.Add([]);
            }
        }

        return records;
    }
}
