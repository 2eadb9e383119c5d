using Portwitness.Analysis.Catalogue;
using Portwitness.Analysis.Conversation;
using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Findings;
using Portwitness.Analysis.Profile;
using Portwitness.Analysis.Tests.Compliance;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.Testing.Compliance;

namespace Portwitness.Analysis.Tests.Rules;

/// <summary>A list without faults costs no memory, so that a long capture can be judged as it arrives.</summary>
public class GarbageTests
{
    [Theory]
    [InlineData(65_000, false)]
    [InlineData(240_000, false)]
    [InlineData(240_000, true)]
    public void CleanList_MakesNoGarbage(int rating, bool epr)
    {
        CompliantSource source = new() { Maximum = rating, Present = rating, Edition = Editions.R32, PpsMinimum = 5000 };
        IReadOnlyList<uint> words = epr ? source.Epr : source.Spr;
        SourceEvidence evidence = ComplianceCase.Of(source).First().Evidence;
        MessageKind kind = epr ? MessageKind.EPRSourceCapabilities : MessageKind.SourceCapabilities;
        MessageHeader header = MessageHeader.Create(kind, epr ? 0 : words.Count, 0, true, true, 2);
        Advertisement list = new(
            0, 1, kind, header, ushort.MaxValue, [.. words.Select((word, index) => new OfferedObject(index + 1, word, uint.MaxValue))],
            [], 0, null, PdpBasis.None);
        FindingLog log = new() { File = "garbage" };

        // The first time sets up what is kept for good.
        CapabilityChecker.Check(list, evidence, RuleSet.OfCaptures, log);
        long before = GC.GetAllocatedBytesForCurrentThread();
        CapabilityChecker.Check(list, evidence, RuleSet.OfCaptures, log);
        long garbage = GC.GetAllocatedBytesForCurrentThread() - before;

        log.Findings.Should().BeEmpty();
        garbage.Should().Be(0);
    }

    // As PPS asks for every ten seconds (R3.2v1.1, 6.4.2): requests and answers with their GoodCRCs, all as it should be.
    [Theory]
    [InlineData("contract 3 at 9V 3A")]
    [InlineData("contract 2 at 3A")]
    public void ContractThatIsRenewed_MakesNoGarbage(string contract)
    {
        byte[] capture = Synthesised.Bytes($"""
            source: [5V 3A, 9V 3A, PPS 5-11V 3A]
            steps:
              - attach
              - advertise
              - {contract}
              - {contract} every 8s for 8000s
            """);
        CaptureAnalyzer analyzer = new(new CaptureOptions { File = "garbage" });

        // The first half sets up what is kept for good.
        analyzer.Write(capture.AsSpan(0, capture.Length / 2));
        long before = GC.GetAllocatedBytesForCurrentThread();
        analyzer.Write(capture.AsSpan(capture.Length / 2));
        long garbage = GC.GetAllocatedBytesForCurrentThread() - before;

        analyzer.Complete().Findings.Should().NotContain(static finding => finding.Verdict == Verdict.Fails);
        garbage.Should().Be(0);
    }
}
