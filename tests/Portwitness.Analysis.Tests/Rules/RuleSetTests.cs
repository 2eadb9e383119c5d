using System.Text;
using Portwitness.Analysis.Catalogue;
using Portwitness.Analysis.Conversation;
using Portwitness.Analysis.Exchanges;
using Portwitness.Analysis.Rules;
using Portwitness.Analysis.Rules.Capabilities;
using Portwitness.Analysis.Rules.Sequence;
using Portwitness.Following.Links;
using Portwitness.PowerDelivery.Headers;

namespace Portwitness.Analysis.Tests.Rules;

/// <summary>Which rules run, and what they are called for.</summary>
public class RuleSetTests
{
    // 9 V first (R3.2v1.1, 6.4.1.4), and then a fixed object of 5 V, out of order (6.4.1).
    private const string Words = "0x0002D12C 0x0001912C";

    [Fact]
    public void OneRule_RunsAlone()
    {
        Found(RuleSet.OfCaptures).Should().Contain(["first-object-not-vsafe5v", "objects-out-of-order"]);

        Found(RuleSet.Of(new ObjectsOutOfOrder())).Should().Equal("objects-out-of-order");
    }

    [Fact]
    public void RuleOfASet_IsCalledForEachMessage_AndOneThatIsLeftOutForNone()
    {
        CountingRule counts = new();
        byte[] capture = Synthesised.Bytes("source: [5V 3A, 9V 3A]\nsteps: [attach, advertise, contract 2 at 3A]");
        long messages = Analyse(RuleSet.Of(counts), capture).MessageCount;

        messages.Should().BeGreaterThan(3);
        counts.Calls.Should().Be(messages);
        Analyse(RuleSet.Of(new ObjectsOutOfOrder()), capture);
        counts.Calls.Should().Be(messages);
    }

    [Fact]
    public void SequenceRule_IsCalledForTheKindsThatConcernIt()
    {
        EprOnlyRule rule = new();
        SequenceRules rules = RuleSet.Of(rule).Sequence;
        foreach (MessageKind kind in new[] { MessageKind.Accept, MessageKind.EPRMode, MessageKind.EPRSourceCapabilities, MessageKind.Request })
        {
            rules.OnBegan(new Delivery { Header = MessageHeader.Create(kind, kind.Class == MessageClass.Data ? 1 : 0, 0, false, false, 2) }, null!);
        }

        rule.Heard.Should().Equal(MessageKind.EPRMode);
    }

    private static string[] Found(RuleSet rules) =>
        [.. Analyse(rules, Encoding.UTF8.GetBytes(Words)).Findings.Select(finding => finding.Rule).Distinct()];

    private static CaptureAnalysis Analyse(RuleSet rules, byte[] capture)
    {
        CaptureAnalyzer analyzer = new(new CaptureOptions { File = "set", Rules = rules });
        analyzer.Write(capture);
        return analyzer.Complete();
    }

    private static RuleDescription Describe(string name) => CaptureRules.All[0].Description with { Name = name };

    private sealed class CountingRule : MessageRule
    {
        public long Calls { get; private set; }

        public override RuleDescription Description { get; } = Describe("counting");

        public override void Check(in HeardMessage message, IHitSink hits) => Calls++;
    }

    private sealed class EprOnlyRule : SequenceRule, IHearsBegan
    {
        public List<MessageKind> Heard { get; } = [];

        public override RuleDescription Description { get; } = Describe("epr-only");

        public bool Concerns(MessageKind kind) => kind == MessageKind.EPRMode;

        public void OnBegan(in Delivery delivery, ConversationState conversation) => Heard.Add(delivery.Kind);
    }
}
