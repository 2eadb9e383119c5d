using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Findings;
using Portwitness.Product.Tests.Arrangements;

namespace Portwitness.Product.Tests.Rules;

/// <summary>The same offence at several objects, lists or messages is one finding with its places.</summary>
public class RepeatedFindingsTests
{
    // R3.2v1.1, 6.4.1.2.1: bits 29 to 23 of a fixed object other than the first are zero. All four repeat Unconstrained Power.
    private const string FourFlags = "0x0801912C 0x0802D12C 0x0804B12C 0x080640E1 0x0802412C";

    [Fact]
    public void FourObjectsOfAList_AreOneFindingWithFourPlaces()
    {
        Finding finding = CaptureRun.Text(FourFlags).Findings.Single(one => one.Rule == "flags-beyond-first-object");

        finding.ObjectPosition.Should().Be(2);
        finding.Observed.Should().Be("bits 0x08000000 of 0x0802D12C");
        finding.FurtherPlaces.Select(static place => (place.MessageIndex, place.ObjectPosition, place.Observed.Text())).Should().Equal(
            (1, 3, "bits 0x08000000 of 0x0804B12C"), (1, 4, "bits 0x08000000 of 0x080640E1"), (1, 5, "bits 0x08000000 of 0x0802412C"));
    }

    [Fact]
    public void ListsOfTwoCaptures_AreOneFindingOfTheirPort()
    {
        const string Script = "port: C1\nin_use: [{0}]\nedition: R3.0\nsource: [5V 3A, 0x0802D12C]\nsteps: [attach, advertise, contract 1 at 3A]";
        ProductAnalysis analysis = PortsTogether.Check(
            "", new PortCapture("C1", Script.Replace("{0}", "C1", StringComparison.Ordinal)),
            new PortCapture("C1", Script.Replace("{0}", "C1, C2", StringComparison.Ordinal)));

        Finding finding = analysis.Of("flags-beyond-first-object").Single();
        (finding.File, string.Join('+', finding.Arrangement)).Should().Be(("f0", "C1"));
        finding.FurtherPlaces.Should().ContainSingle().Which.Should().Match<FindingPlace>(
            static place => place.File == "f1" && string.Join('+', place.Arrangement) == "C1+C2" && place.ObjectPosition == 2);
    }

    [Fact]
    public void ListsOfTwoPorts_StayApart()
    {
        const string Script = "port: {0}\nin_use: [{0}]\nedition: R3.0\nsource: [5V 3A, 0x0802D12C]\nsteps: [attach, advertise, contract 1 at 3A]";
        ProductAnalysis analysis = PortsTogether.Check(
            "", new PortCapture("C1", Script.Replace("{0}", "C1", StringComparison.Ordinal)),
            new PortCapture("C2", Script.Replace("{0}", "C2", StringComparison.Ordinal)));

        analysis.Of("flags-beyond-first-object").Select(static finding => finding.Port).Should().Equal("C1", "C2");
    }

    // What settles the one does not settle the other, and each printed statement is judged on its own.
    [Fact]
    public void AnotherNextStep_OrALineOfTheLabel_IsAnotherFinding()
    {
        Finding one = new()
        {
            Rule = "a-rule", Severity = Severity.Caution, Title = "", Detail = "", Clause = "", NextStep = "Use an EPR cable.", MessageIndex = 1,
        };

        RepeatedFindings.Fold([one, one with { NextStep = "Use a 5 A cable." }, one with { MessageIndex = 7 }])
            .Select(static finding => finding.FurtherPlaces.Length).Should().Equal(1, 0);
        RepeatedFindings.Fold([one with { LabelLine = 2 }, one with { LabelLine = 2 }]).Should().HaveCount(2);
    }
}
