using Portwitness.Analysis.Evidence;
using Portwitness.Labels;

namespace Portwitness.Product.Tests;

/// <summary>What a person settles is written into the product file, and everything else stays as it is.</summary>
public class LabelSettlementTests
{
    private static readonly LabelCorrection[] Two = [new(2, "45W+15W", "C1 45W, C2+A share 15W"), LabelCorrection.NoRating(1)];

    private const string Lines = "- {line: 2, printed: \"45W+15W\", read_as: \"C1 45W, C2+A share 15W\"}";

    [Theory]
    [InlineData(
        "# head\nlabel: |\n  x\n  C: 45W+15W\n# tail\n",
        "# head\nlabel: |\n  x\n  C: 45W+15W\n# tail\nlabel_corrections:\n  " + Lines + "\n  - {line: 1, no_rating: true}\n")]
    [InlineData(
        "label: x  # why\nlabel_corrections:\n- {line: 1, printed: x, read_as: y} # first\n\n# captures\ncaptures: []\n",
        "label: x  # why\nlabel_corrections:\n- {line: 1, printed: x, read_as: y} # first\n" + Lines + "\n- {line: 1, no_rating: true}\n\n# captures\ncaptures: []\n")]
    [InlineData(
        "label: x\nlabel_corrections:\n    - line: 1\n      printed: x\n      read_as: y\nparts: []\n",
        "label: x\nlabel_corrections:\n    - line: 1\n      printed: x\n      read_as: y\n    " + Lines + "\n    - {line: 1, no_rating: true}\nparts: []\n")]
    [InlineData("label: x\r\n", "label: x\r\nlabel_corrections:\r\n  " + Lines + "\r\n  - {line: 1, no_rating: true}\r\n")]
    public void Corrections_AreAddedAndNothingElseChanges(string file, string expected)
    {
        LabelSettlement.Add(file, Two, out string? problem).Should().Be(expected);
        problem.Should().BeNull();
    }

    [Theory]
    [InlineData("{label: x}\n", "add these lines under \"label_corrections:\" by hand: {line: 2, printed: \"45W+15W\"")]
    [InlineData("label: x\nlabel_corrections: [{line: 1, printed: x, read_as: y}]\n", "by hand")]
    [InlineData("label: x\nlabel_corrections: []\n", "by hand")]
    [InlineData("lable: x\n", "line 1: ")]
    [InlineData("label: [\n", "line ")]
    public void FileThatIsNotInBlocks_IsLeftWithWhatToDo(string file, string reason)
    {
        LabelSettlement.Add(file, Two, out string? problem).Should().BeNull();
        problem.Should().Contain(reason);
    }

    [Theory]
    [InlineData("{line: 1, no_rating: true}", null)]
    [InlineData("{line: 1, printed: \"a \\\"b\\\"\", read_as: \"5V 3A\"}", null)]
    [InlineData("{line: 1}", "a correction needs")]
    [InlineData("{line: 1, no_rating: false}", "a correction needs")]
    [InlineData("{line: 1, no_rating: true, printed: x}", "a correction needs")]
    [InlineData("{line: 1, no_rating: true}\nlabel: y", "not readable as YAML")]
    public void Line_IsReadAsAProductFileReadsIt(string line, string? reason)
    {
        IReadOnlyList<LabelCorrection>? read = LabelSettlement.Read([line], out string? problem);

        if (reason is null)
        {
            read.Should().ContainSingle().Which.ToYaml().Should().Be(line);
        }
        else
        {
            problem.Should().Contain(reason);
        }
    }

    [Fact]
    public void UnreadLine_KeepsTheVerdictOpenUntilItIsSettled()
    {
        const string Label = "label: |\n  blorp zork 20V\n  C: 5V 3A\n  flimmer plo\n";

        Judge(Label).VerdictBasis.Should().Be("from label; no port was captured; line 1 of the label is unread");
        ProductAnalysis settled = Judge(Label + "label_corrections:\n  - {line: 1, no_rating: true}\n");

        settled.VerdictBasis.Should().Be("from label; no port was captured");
        settled.NextSteps.Should().Equal("Capture C alone.");
        settled.Verdict.Should().Be(Verdict.CannotTell);
    }

    private static ProductAnalysis Judge(string members)
    {
        using ProductCheck check = ProductCheck.ForProduct("product.yaml", members, null);
        return check.Complete();
    }
}
