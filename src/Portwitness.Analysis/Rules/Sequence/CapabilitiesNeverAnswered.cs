using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Exchanges;

namespace Portwitness.Analysis.Rules.Sequence;

/// <summary>No sink asked for power in the whole capture.</summary>
internal sealed class CapabilitiesNeverAnswered : SequenceRule, IHearsEnd
{
    private const long LongEnoughUs = 1_000_000;
    private const int ManyLists = 3;

    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "capabilities-never-answered",
        Severity = Severity.Note,
        Title = "No sink asked for power",
        Clause = "R3.2v1.1 6.4.2, 6.6.2",
        Why = "A sink answers capabilities with a request within milliseconds. Without one this capture shows what the port offers, "
            + "but not that it delivers; charging at more than 5 V was not tried.",
        Evidence = "Lists that the partner acknowledged, and seconds of capture behind them with the sink's "
            + "messages recorded.",
        Example = new ScriptExample(
            "source: [5V 3A, 9V 3A]\nsteps: [attach, advertise, advertise, advertise]",
            "Three lists, and no request."),
        Category = RuleCategory.Sequence,
    };

    /// <inheritdoc/>
    public void OnEnd(ConversationState conversation)
    {
        bool isHeard = conversation.Lists.Acknowledged > 0;
        bool waitedLong = conversation.UnansweredListUs >= 0 && conversation.NowUs - conversation.UnansweredListUs > LongEnoughUs;
        if (conversation.AnyRequest || !(waitedLong || conversation.Lists.All >= ManyLists))
        {
            return;
        }

        conversation.Report(
            this,
            new Hit(Verdict.CannotTell, isHeard
                ? "The lists were acknowledged, so that something was there to ask; it did not."
                : "The capture shows no GoodCRC for the lists: no sink may have been there.")
            {
                IsNote = true,
                Expected = "a Request",
                Observed = isHeard ? "GoodCRC, and no Request" : "no GoodCRC, and no Request",
                NextStep = "Capture the port with a sink that asks for power.",
            },
            conversation.NowUs, conversation.Index);
    }
}
