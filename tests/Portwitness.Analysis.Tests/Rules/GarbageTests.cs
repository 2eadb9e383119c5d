using Portwitness.Analysis.Catalogue;
using Portwitness.Analysis.Conversation;
using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Findings;
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
        OfferedObject[] objects = [.. words.Select((word, index) => new OfferedObject(index + 1, word, uint.MaxValue))];
        SourceEvidence evidence = ComplianceCase.Of(source).First().Evidence;
        MessageKind kind = epr ? MessageKind.EPRSourceCapabilities : MessageKind.SourceCapabilities;
        MessageHeader header = MessageHeader.Create(kind, epr ? 0 : words.Count, 0, true, true, 2);
        FindingLog log = new() { File = "garbage" };

        // The first time sets up what is kept for good.
        CapabilityChecker.Check(kind, header, ushort.MaxValue, objects, evidence, RuleSet.OfCaptures, log);
        long before = GC.GetAllocatedBytesForCurrentThread();
        CapabilityChecker.Check(kind, header, ushort.MaxValue, objects, evidence, RuleSet.OfCaptures, log);
        long garbage = GC.GetAllocatedBytesForCurrentThread() - before;

        log.Findings.Should().BeEmpty();
        garbage.Should().Be(0);
    }
}
