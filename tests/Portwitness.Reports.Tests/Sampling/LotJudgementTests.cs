using Portwitness.Contracts.V1;
using Portwitness.Reports.Sampling;
using Portwitness.Reports.Text;

namespace Portwitness.Reports.Tests.Sampling;

/// <summary>Acceptance of lots by attributes against MIL-STD-105E's tables as they are restated (under-load, 7.2), and what failures of a sample say.</summary>
public class LotJudgementTests
{
    // The checks beside the table.
    [Theory]
    [InlineData(60, "0.65", 'F', 20, 0)]
    [InlineData(200, "1.0", 'H', 50, 1)]
    [InlineData(200, "0.65", 'F', 20, 0)]
    [InlineData(60, "2.5", 'F', 20, 1)]
    [InlineData(20, "4.0", 'B', 3, 0)]
    [InlineData(1_000, "2.5", 'J', 80, 5)]
    [InlineData(35_000, "6.5", 'L', 200, 21)]
    [InlineData(8, "6.5", 'A', 2, 0)]
    [InlineData(8, "0.65", '-', 8, 0)]
    [InlineData(13, "1.0", '-', 13, 0)]
    [InlineData(14, "1.0", 'E', 13, 0)]
    public void Plan_FollowsTheArrowsOfTheTable(int lot, string aql, char letter, int units, int accept) =>
        LotPlan.For(lot, LotPlan.Limits.ToList().IndexOf(aql)).Should().Be(new LotPlan(letter, units, accept));

    [Fact]
    public void EveryLotAndLimit_HasAPlanThatFitsIt()
    {
        for (int limit = 0; limit < LotPlan.Limits.Count; limit++)
        {
            for (int lot = 2; lot <= LotPlan.MaxLot; lot += 1 + (lot / 50))
            {
                LotPlan plan = LotPlan.For(lot, limit);
                plan.Units.Should().BeLessThanOrEqualTo(lot);
                (plan.Units == lot).Should().Be(plan.IsWhole);
            }
        }
    }

    // 1 − 0.05^(1/n): n = 1 95 %, 3 63 %, 5 45 %, 10 26 %, 20 14 %, 50 5.8 % (under-load, 7.1). With failures: Clopper and Pearson, one-sided; 1 of 10 39.4 %,
    // 2 of 20 28.3 % (tables of binomial confidence limits, from memory).
    [Theory]
    [InlineData(1, 0, 0.95)]
    [InlineData(3, 0, 0.63)]
    [InlineData(5, 0, 0.45)]
    [InlineData(10, 0, 0.26)]
    [InlineData(20, 0, 0.14)]
    [InlineData(50, 0, 0.058)]
    [InlineData(10, 1, 0.394)]
    [InlineData(20, 2, 0.283)]
    [InlineData(4, 4, 1)]
    public void FailingShare_IsBounded(int units, int failing, double most) =>
        (FailingShare.MostMillionths(units, failing) / 1e6).Should().BeApproximately(most, 0.006);

    // n 50 Ac 1: 0.911 at 1 %, 0.40 at 4 %, one lot in ten at 7.6 %; n 80 Ac 2: 0.953, 0.375, 6.5 %; n 125 Ac 3: 0.963, 0.259, 5.3 %; n 13 Ac 0: 0.878, 0.588, 16.2 %.
    [Theory]
    [InlineData(50, 1, 0.911, 0.40, 0.076)]
    [InlineData(80, 2, 0.953, 0.375, 0.065)]
    [InlineData(125, 3, 0.963, 0.259, 0.053)]
    [InlineData(13, 0, 0.878, 0.588, 0.162)]
    public void Chance_IsThatOfTheBinomialDistribution(int units, int accept, double atOne, double atFour, double oneInTen)
    {
        FailingShare.Accepted(units, accept, 0.01).Should().BeApproximately(atOne, 0.0006);
        FailingShare.Accepted(units, accept, 0.04).Should().BeApproximately(atFour, 0.0011);
        FailingShare.ShareAccepted(units, accept, 0.1).Should().BeApproximately(oneInTen, 0.0006);
    }

    // Lot of 200, AQL 1.0: 50 units, accepted with 1, rejected with 2.
    [Theory]
    [InlineData(50, 0, 0, Verdict.Holds, "")]
    [InlineData(49, 1, 0, Verdict.Holds, "")]
    [InlineData(49, 0, 1, Verdict.Holds, "")]
    [InlineData(48, 1, 1, Verdict.CannotTell, "Settle open1.")]
    [InlineData(48, 2, 0, Verdict.Fails, "")]
    [InlineData(0, 2, 0, Verdict.Fails, "")]
    [InlineData(49, 0, 0, Verdict.CannotTell, "Draw and check 1 more unit.")]
    [InlineData(40, 1, 2, Verdict.CannotTell, "Draw and check 7 more units. Settle open1, open2.")]
    public void Lot_IsDecidedByWhatItsUnitsCanStillBecome(int hold, int fail, int open, Verdict expected, string nextStep)
    {
        LotDecision decision = Judge(hold, fail, open);

        (decision.Verdict, decision.NextStep).Should().Be((expected, nextStep));
    }

    // A plan is drawn once: who goes on drawing until the lot passes has another plan.
    [Fact]
    public void UnitsBeyondThePlan_DecideNothing()
    {
        LotDecision decision = new LotJudgement(200, 1).Judge(
            "x", [.. Units("fail", Verdict.Fails, 2), .. Units("hold", Verdict.Holds, 60), .. Units("more", Verdict.Fails, 9)]);

        (decision.Verdict, decision.Holds, decision.Fails, decision.Checked).Should().Be((Verdict.Fails, 48, 2, 71));
        using StringWriter text = new();
        LotText.Write(text, decision, TextStyle.Plain);
        text.ToString().Should().Contain("rejected").And.Contain("21 more were checked").And.Contain("fail1, fail2").And.Contain("code letter H: 50 units")
            .And.Contain("7.6 %");
    }

    private static LotDecision Judge(int hold, int fail, int open) => new LotJudgement(200, 1).Judge(
        "x", [.. Units("hold", Verdict.Holds, hold), .. Units("fail", Verdict.Fails, fail), .. Units("open", Verdict.CannotTell, open)]);

    private static IEnumerable<(string Name, Verdict Verdict)> Units(string name, Verdict verdict, int count) =>
        Enumerable.Range(1, count).Select(number => ($"{name}{number}", verdict));
}
