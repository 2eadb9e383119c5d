using System.Text.RegularExpressions;
using Portwitness.Contracts.V1;
using Portwitness.Reports.Markdown;

namespace Portwitness.Reports.Tests;

public sealed partial class MarkdownReportTests
{
    public static TheoryData<string> Hostile => SampleReports.Hostile;

    /// <summary>Whatever texts hold, lines are of the same kinds in the same order, and rows have as many cells.</summary>
    [Theory]
    [MemberData(nameof(Hostile))]
    public void HostileTexts_ChangeNoStructure(string text)
    {
        if (text.Length == 0)
        {
            return;
        }

        Shape(SampleReports.FilledWith(text)).Should().Equal(Shape(SampleReports.FilledWith("plain")));
    }

    [Theory]
    [MemberData(nameof(Hostile))]
    public void HostileTexts_AreNoMarkup(string text)
    {
        string page = SampleReports.Write(MarkdownReport.Write, SampleReports.SetOf(SampleReports.FilledWith(text)));
        string words = Code().Replace(page, "");

        // Raw HTML and entities need "<" or "&" (GFM 6.10, 6.2); links need brackets, or a scheme or "www." as it is (6.6, 6.9).
        words.Should().NotContain("<");
        Regex.Matches(words, "&(?!lt;|gt;|amp;)").Should().BeEmpty();
        Unescaped(words, "[]`~$_").Should().BeEmpty();
        Regex.Matches(words, "(?i)https?:|www\\.").Should().BeEmpty();
        page.Should().NotContainAny("\u001b", "\u202e", "\u2028", "\0");
    }

    [Fact]
    public void VerdictComesFirst_AndNothingIsEscapedThatNeedNotBe()
    {
        string page = SampleReports.Write(MarkdownReport.Write, SampleReports.SetOf(new ProductReport
        {
            Product = "Tarnholt TH-65",
            Verdict = Verdict.Fails,
            Findings =
            {
                new Finding { Rule = "a-rule", Severity = Severity.Caution, Verdict = Verdict.CannotTell, Title = "Second" },
                new Finding { Rule = "a-rule", Severity = Severity.Mismatch, Verdict = Verdict.Fails, Title = "First", Observed = "19.98 W" },
            },
            NextSteps = { "1. Capture C2 alone.", "- once more" },
            Statements =
            {
                new Statement { Claim = "C1 gives 9 V 3 A", Verdict = Verdict.Holds, LabelLine = 1, LabelColumn = 9, Evidence = "19.98 W - seen" },
            },
        }));

        page.Should().StartWith("# Tarnholt TH-65\n\n**Verdict: FAILS**. Findings: 1 mismatch, 1 caution.\n");
        page.IndexOf("First", StringComparison.Ordinal).Should().BeLessThan(page.IndexOf("Second", StringComparison.Ordinal));
        page.Should().Contain("- **rule**: `a-rule` (cannot tell)\n").And.Contain("- **observed**: 19.98 W\n")
            .And.Contain("| HOLDS | C1 gives 9 V 3 A | line 1, column 9 | 19.98 W - seen |\n")
            .And.Contain("- 1\\. Capture C2 alone.\n- \\- once more\n");
    }

    [Fact]
    public void UnusableInput_SaysWhy()
    {
        string page = SampleReports.Write(MarkdownReport.Write, SampleReports.SetOf(new ProductReport
        {
            Product = "x",
            Unusable = true,
            Faults = { new Fault { File = "product.yaml", Line = 3, Code = "yaml", Detail = "not closed" } },
        }));

        page.Should().Contain("nothing could be judged").And.Contain("- product.yaml: line 3: not closed (yaml)");
    }

    // The kind of each line, and of a table's row the number of its cells.
    private static List<string> Shape(ProductReport report) =>
    [
        .. SampleReports.Write(MarkdownReport.Write, SampleReports.SetOf(report)).Split('\n')
            .Select(line => $"{Marker().Match(line).Value} {Unescaped(Code().Replace(line, "code"), "|").Count}"),
    ];

    private static List<char> Unescaped(string text, string characters)
    {
        List<char> found = [];
        for (int at = 0; at < text.Length; at++)
        {
            if (text[at] == '\\')
            {
                at++;
            }
            else if (characters.Contains(text[at], StringComparison.Ordinal))
            {
                found.Add(text[at]);
            }
        }

        return found;
    }

    [GeneratedRegex(@"^(#+ |- |\| |\d+[.)] |> |=+$|)")]
    private static partial Regex Marker();

    // A code span: opened and closed by as many backticks (CommonMark 6.1); the one of this report is the rule's name.
    [GeneratedRegex(@"(?<=\*\*rule\*\*: )(`+)(?!`).*?(?<!`)\1(?!`)")]
    private static partial Regex Code();
}
