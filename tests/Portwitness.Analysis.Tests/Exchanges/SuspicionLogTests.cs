using Portwitness.Analysis.Catalogue;
using Portwitness.Analysis.Conversation;
using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Exchanges;
using Portwitness.Analysis.Rules;
using Portwitness.Following.Links;
using Portwitness.PowerDelivery.Framing;

namespace Portwitness.Analysis.Tests.Exchanges;

/// <summary>What a message that the capture misses makes doubtful, and which of many alike is told. Ten seconds are common practice, no source.</summary>
public class SuspicionLogTests
{
    private const long SecondUs = 1_000_000;

    private static readonly Rule Late = CaptureRules.All.Single(static rule => rule.Description.Name == "response-late");

    private readonly CaptureContext _context = new(new CaptureOptions { File = "capture" });
    private readonly SuspicionLog _log;

    public SuspicionLogTests() => _log = new SuspicionLog(_context) { KnowsNext = static (_, _) => false };

    // What is noticed later may have happened earlier: an old suspicion behind a newer one hides it from no loss.
    [Fact]
    public void Loss_MakesDoubtfulWhatRestsOnItsTime_InWhateverOrderThatCame()
    {
        Suspicion late = At(20 * SecondUs);
        Suspicion early = At(5 * SecondUs);
        _log.Add(late);
        _log.Add(early);

        _log.Lose(new Loss(SopKind.Sop, true, 1, 15 * SecondUs, 25 * SecondUs));

        (late.IsDoubtful, early.IsDoubtful).Should().Be((true, false));
    }

    [Theory]
    [InlineData(5_000_000, true)]
    [InlineData(5_000_001, false)]
    public void Loss_ReachesBackToWhenItsSenderWasHeard(long sinceUs, bool isDoubtful)
    {
        Suspicion suspicion = At(5 * SecondUs);
        _log.Add(suspicion);

        _log.Lose(new Loss(SopKind.Sop, true, 1, sinceUs, 8 * SecondUs));

        suspicion.IsDoubtful.Should().Be(isDoubtful);
    }

    [Theory]
    [InlineData(4_000_000, true)]
    [InlineData(4_000_001, false)]
    public void WhatBeginsBeforeALossEnds_IsDoubtful(long fromUs, bool isDoubtful)
    {
        _log.Lose(Loss.OfAny(4 * SecondUs));
        Suspicion suspicion = At(5 * SecondUs, fromUs: fromUs);
        _log.Add(suspicion);

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
        _log.Complete(messages: 10, timesAreOfSoftware: false);

        _context.Findings.Findings.Select(static finding => (finding.Observed.Text(), finding.Repeats)).Should().Equal(("9", 2), ("5", 0));
    }

    private static Suspicion At(long timeUs, int excess = 0, string group = "one", long fromUs = long.MaxValue) => new()
    {
        Rule = Late, Party = Party.Source, TimeUs = timeUs, FromUs = fromUs, MessageIndex = 1, Excess = excess, Group = ("tSenderResponse", group, true),
        Hit = new Hit(Verdict.Fails, $"{group} {excess}") { Observed = $"{excess}" },
    };
}
