using Portwitness.Analysis.Conversation;
using Portwitness.Analysis.Exchanges;
using Portwitness.Analysis.Findings;
using Portwitness.Analysis.Rules;

namespace Portwitness.Analysis.Tests.Exchanges;

/// <summary>What a message that the capture misses makes doubtful, and which of many alike is told. Ten seconds are common practice, no source.</summary>
public class SuspicionLogTests
{
    private const long SecondUs = 1_000_000;

    private static readonly Rule Late = RuleCatalogue.All.Single(static rule => rule.Description.Name == "response-late");

    private readonly CaptureContext _context = new(new CaptureOptions { File = "capture" });
    private readonly SuspicionLog _log;

    public SuspicionLogTests() => _log = new SuspicionLog(_context);

    // What is noticed later may have happened earlier: an old suspicion behind a newer one hides it from no loss.
    [Fact]
    public void Loss_MakesEverySuspicionNearItDoubtful_InWhateverOrderTheyCame()
    {
        Suspicion near = At(20 * SecondUs);
        Suspicion far = At(5 * SecondUs);
        _log.Add(near);
        _log.Add(far);

        _log.Lose(25 * SecondUs);

        (near.IsDoubtful, far.IsDoubtful).Should().Be((true, false));
    }

    [Theory]
    [InlineData(9_999_999, true)]
    [InlineData(10_000_000, false)]
    public void Loss_ReachesTenSecondsBack(long laterUs, bool isDoubtful)
    {
        Suspicion suspicion = At(5 * SecondUs);
        _log.Add(suspicion);

        _log.Lose((5 * SecondUs) + laterUs);
        _log.Lose((5 * SecondUs) + laterUs + 1);

        suspicion.IsDoubtful.Should().Be(isDoubtful);
    }

    [Fact]
    public void OfAGroup_TheWorstIsToldAndTheOthersAreCounted()
    {
        foreach (int excess in new[] { 3, 9, 4 })
        {
            _log.Add(At(SecondUs, excess, "one"));
        }

        _log.Add(At(SecondUs, 5, "two"));
        _log.Complete(timesAreOfSoftware: false);

        _context.Findings.Findings.Select(static finding => (finding.Observed.Text(), finding.Repeats)).Should().Equal(("9", 2), ("5", 0));
    }

    private static Suspicion At(long timeUs, int excess = 0, string group = "one") => new()
    {
        Rule = Late, Party = Party.Source, TimeUs = timeUs, MessageIndex = 1, Excess = excess, Group = ("tSenderResponse", group, true),
        Hit = new Hit(Verdict.Fails, $"{group} {excess}") { Observed = $"{excess}" },
    };
}
