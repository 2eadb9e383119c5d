using System.Globalization;
using System.Text;
using Portwitness.Analysis.Catalogue;
using Portwitness.Analysis.Conversation;

namespace Portwitness.Analysis.Tests.Capture;

/// <summary>What is found while a capture grows costs what is new, not all that came before.</summary>
public sealed class FoundSoFarTests
{
    private const string Header = """{"capture":1,"port":"C1"}""" + "\n";

    // R3.2v1.1 Table 6.51: 0x80414141 is guaranteed, 65 W; 0x0064413C is managed, maximum 100 W.
    private static readonly string[] Infos = ["AB1341414180", "AB113C416400"];

    [Fact]
    public void EachListIsJudgedOnce_HoweverSmallThePiecesAre()
    {
        CaptureAnalyzer analyzer = new(new CaptureOptions { File = "c" });
        foreach (byte one in Encoding.UTF8.GetBytes(Header + Lists(40)))
        {
            analyzer.Write([one]);
            analyzer.FoundSoFar();
        }

        analyzer.FoundSoFar().Provisional.Should().NotBeEmpty().And.BeSameAs(analyzer.FoundSoFar().Provisional);
        analyzer.FoundSoFar().Judgements.Should().Be(40);
    }

    // Each Source_Info says something else of the source than the one before, so that every list has to be judged again.
    [Fact]
    public void SourceThatKeepsContradictingItself_CostsABoundedShareForEachMessage()
    {
        const int Several = 300;
        CaptureAnalyzer analyzer = new(new CaptureOptions { File = "c" });
        analyzer.Write(Encoding.UTF8.GetBytes(Header + Lists(Several)));
        analyzer.FoundSoFar();
        for (int message = 0; message < Several; message++)
        {
            analyzer.Write(Encoding.UTF8.GetBytes(Line(Several + message, Infos[message % 2])));
            analyzer.FoundSoFar();
        }

        analyzer.FoundSoFar().Judgements.Should().BeInRange(Several + 1, Several + (16 * (Several + 1)));
    }

    [Fact]
    public void WhatIsLearnedLater_ReachesEveryList()
    {
        string text = Header + Lists(100) + Line(100, Infos[0]);
        CaptureAnalyzer growing = new(new CaptureOptions { File = "c" });
        foreach (string line in text.Split('\n'))
        {
            growing.Write(Encoding.UTF8.GetBytes(line + "\n"));
            growing.FoundSoFar();
        }

        for (int call = 0; call < 10; call++)
        {
            growing.FoundSoFar();
        }

        CaptureAnalyzer whole = new(new CaptureOptions { File = "c" });
        whole.Write(Encoding.UTF8.GetBytes(text));

        growing.FoundSoFar().Provisional.Should().Contain(static one => one.Rule == "normative-voltage-missing")
            .And.BeEquivalentTo(whole.FoundSoFar().Provisional, static options => options.WithStrictOrdering());
    }

    // 5 V 3 A, and 9 V twice, with a current that no other list has.
    // A list that a source fell back to is judged by its own power (R3.2v1.1, 6.4.1), while the capture grows as at its end.
    [Fact]
    public void SourceThatFellBack_IsJudgedAsAtTheEnd()
    {
        CaptureAnalyzer analyzer = new(new CaptureOptions { File = "c" });
        analyzer.Write(Synthesised.Bytes(
            """
            edition: R3.2
            cable: 5A captive
            source:
              full: [5V 3A, 9V 3A, 15V 3A, 20V 3.25A, SPR AVS 3A/3.25A]
              less: [5V 3A, 9V 3A, 15V 3A, 20V 2.25A, SPR AVS 3A/2.25A]
            steps: [attach, advertise full, contract 4 at 3.25A, pause 1s, advertise less, contract 4 at 2.25A]
            """));

        string[] soFar = [.. analyzer.FoundSoFar().Provisional.Select(static finding => finding.Rule)];
        HashSet<string> ofLists = [.. RuleSet.OfCaptures.Capabilities.Select(static rule => rule.Description.Name)];
        soFar.Should().BeEquivalentTo(analyzer.Complete().Findings.Select(static finding => finding.Rule).Where(ofLists.Contains));
    }

    private static string Lists(int count) => string.Concat(Enumerable.Range(0, count).Select(static number =>
    {
        string current = (number & 0xFF).ToString("X2", CultureInfo.InvariantCulture);
        string more = (0xD0 + (number >> 8)).ToString("X2", CultureInfo.InvariantCulture);
        return Line(number, $"A1312C910122{current}{more}0200{current}{more}0200");
    }));

    private static string Line(int number, string hex) =>
        string.Create(CultureInfo.InvariantCulture, $"{{\"t\":{number * 100_000},\"sop\":\"SOP\",\"hex\":\"{hex}\"}}\n");
}
