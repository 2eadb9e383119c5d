using Portwitness.Analysis.Evidence;

namespace Portwitness.Product.Tests.Arrangements;

/// <summary>A source may change its list at any time (R3.2v1.1, 6.4.1): what was offered once was offered, and both offers are told with their times.</summary>
public class FallBackTests
{
    private const string Hot = "attach, advertise full, contract 4 at 3.25A, pause 602s, advertise less, contract 4 at 2.25A, pause 5s";

    private const string Printed = "C1: 5V⎓3A 9V⎓3A 15V⎓3A 20V⎓3.25A (65W Max)";

    [Theory]
    [InlineData("20V⎓3.25A (65W Max)", "C1 gives 20 V 3.25 A", "Holds", "object 4 is fixed 20 V 3.25 A (f0, message 1) for 10 min 2 s, then fixed 20 V 2.25 A (message 9)")]
    [InlineData("20V⎓2.25A (65W Max)", "C1 gives 20 V 2.25 A", "Holds", "object 4 is fixed 20 V 3.25 A (f0, message 1) for 10 min 2 s, then fixed 20 V 2.25 A (message 9)")]
    [InlineData("20V⎓3.25A (65W Max)", "C1 gives up to 65 W", "Holds", "the largest offer is 65 W (f0, message 1) for 10 min 2 s, then 45 W (message 9)")]
    [InlineData("20V⎓3.25A (70W Max)", "C1 gives up to 70 W", "Fails", "the largest offer is 65 W (f0, message 1) for 10 min 2 s, then 45 W (message 9)")]
    [InlineData("20V⎓3.25A (45W Max)", "C1 gives up to 45 W", "Fails", "the largest offer is 65 W (f0, message 1) for 10 min 2 s, then 45 W (message 9)")]
    public void Rating_HoldsIfItWasOffered(string printed, string claim, string verdict, string evidence)
    {
        ProductAnalysis analysis = Run($"C1: 5V⎓3A 9V⎓3A 15V⎓3A {printed}", Hot);

        Statement statement = analysis.Statements.Single(one => one.Claim.Text() == claim);
        ($"{statement.Verdict}", statement.Evidence.Text()).Should().Be((verdict, evidence));
        analysis.Findings.Any(static finding => finding.Verdict == Verdict.Fails && finding.Clause == "printed label" && finding.Severity == Severity.Mismatch)
            .Should().Be(verdict == "Fails");
    }

    [Fact]
    public void WhatWasOfferedAgain_NeedsNoHistory() => Power(
        "attach, advertise full, contract 4 at 3.25A, pause 3s, advertise less, pause 3s, advertise full, contract 4 at 3.25A")
        .Should().MatchRegex(@"^the largest offer is 65 W \(f0, message \d\d\)$");

    // The first list of a port that takes its time to know what it can give is no smaller offer.
    [Fact]
    public void SmallerListBeforeALargerOne_SaysNothing()
    {
        Power("attach, advertise less, contract 4 at 2.25A, pause 3s, advertise full, contract 4 at 3.25A")
            .Should().Be("the largest offer is 65 W (f0, message 9)");
    }

    // 20 V is normative above 45 W only (R3.2v1.1, Table 10.2); a source that offered 65 W before keeps it when it is reduced (Table 10.3).
    [Fact]
    public void FallenBackList_IsJudgedByThePowerThatItShows()
    {
        ProductAnalysis analysis = Run(Printed, Hot);

        analysis.Findings.Where(static finding => finding.MessageIndex >= 9 && finding.Severity != Severity.Note).Should().BeEmpty();
        analysis.Captures[0].Advertisements.Select(static list => (list.Pdp?.Milliwatts, list.PdpBasis)).Should().Equal(
            (65_000, PdpBasis.Printed), (45_000, PdpBasis.Derived));
    }

    [Fact]
    public void ManyOffers_AreCountedBetweenTheFirstAndTheLast() => Power(
        "attach, advertise full, contract 4 at 3.25A, pause 2s, advertise sixty, pause 2s, advertise fifty-five, pause 2s, advertise fifty, pause 2s, advertise less, pause 1s")
        .Should().MatchRegex(@"65 W \(f0, message 1\) for 2\.\d s, then 3 other offers, then 45 W \(message \d+\)$");

    // Before a port takes its neighbour into account it may send its own list once more: that is nothing that the label promises.
    [Fact]
    public void LargerListBesideANeighbour_IsNotHeldAgainstTheCombination()
    {
        ProductAnalysis analysis = Run($"{Printed}\nC1+C2: C1 45W, C2 20W", "attach, advertise full, contract 4 at 3.25A, attach C2, advertise full, pause 1s, advertise less, contract 4 at 2.25A");

        Statement shared = analysis.Statements.Single(static one => one.Claim.Text() == "C1+C2: C1 gives 45 W");
        (shared.Verdict, shared.Evidence.Text()).Should().Be((Verdict.Holds, "the largest offer is 45 W (f0, message 11)"));
    }

    // A port that fell back while it was alone says nothing of how power is shared.
    [Fact]
    public void SharingOfAPortThatFellBackAlone_CannotBeTold()
    {
        ProductAnalysis analysis = PortsTogether.Check(
            "", new PortCapture("C1", Script($"{Hot}, attach C2, pause 1s, advertise less, contract 4 at 2.25A")),
            new PortCapture("C2", PortsTogether.Second("C1", "C2", new Offers("", "", "5V 3A"))), new PortCapture("C2", PortsTogether.Alone("C2", "5V 3A")));

        analysis.Arrangements!.Sharing!.Verdict.Should().Be(Verdict.CannotTell);
        analysis.Arrangements.Sharing.Evidence.Should().Contain("C1 alone 65 W for 10 min 2 s, then 45 W");
    }

    private static string Power(string steps) => Run(Printed, steps).Statements.Single(static one => one.Claim.Text() == "C1 gives up to 65 W").Evidence.Text();

    private static ProductAnalysis Run(string label, string steps) => PortsTogether.Check(label, new PortCapture("C1", Script(steps)));

    private static string Script(string steps) =>
        $$"""
        port: C1
        in_use: [C1]
        cable: 5A captive
        source:
          full: [5V 3A, 9V 3A, 15V 3A, 20V 3.25A]
          sixty: [5V 3A, 9V 3A, 15V 3A, 20V 3A]
          fifty-five: [5V 3A, 9V 3A, 15V 3A, 20V 2.75A]
          fifty: [5V 3A, 9V 3A, 15V 3A, 20V 2.5A]
          less: [5V 3A, 9V 3A, 15V 3A, 20V 2.25A]
        steps: [{{steps}}]
        """;
}
