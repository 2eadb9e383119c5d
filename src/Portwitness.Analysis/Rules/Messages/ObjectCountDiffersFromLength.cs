using Portwitness.Analysis.Evidence;
using Portwitness.Following.Links;

namespace Portwitness.Analysis.Rules.Messages;

/// <summary>A header announces another number of objects than the message has.</summary>
public sealed class ObjectCountDiffersFromLength : MessageRule
{
    private const ushort CountBits = 0x7000;

    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "object-count-differs-from-length",
        Severity = Severity.Violation,
        Title = "The header announces another number of objects than the message has",
        Clause = "R3.2v1.1 6.2.1.1.2",
        Why = "A receiver reads as many objects as the header says. Too few and it waits for more; too many and it misses "
            + "what was sent.",
        Evidence = "That the CRC was right: otherwise the recording may be cut.",
        Example = new MessageExample("A1712C9101082CD10200", "The header says seven objects; two are there."),
        Category = RuleCategory.Messages,
    };

    /// <inheritdoc/>
    public override void Check(in HeardMessage message, IHitSink hits)
    {
        if ((message.HeaderKnown & CountBits) != CountBits)
        {
            return;
        }

        // Bytes behind the header or headers. An unchunked message says its length itself; its object count is
        // reserved (6.2.1.2.1). The first object of a chunk holds the extended header.
        int claimed = message.View.ExtendedHeader switch
        {
            { Chunked: false } extended => extended.DataSize,
            { Chunked: true } => Math.Max((message.View.ClaimedObjects * 4) - 2, 0),
            null => message.View.ClaimedObjects * 4,
        };
        int present = message.View.Payload.Length;
        if (claimed == present)
        {
            return;
        }

        // A cut recording looks the same as a wrong header, unless the CRC was right.
        hits.Report(this, new Hit(
            message.CrcOk == true ? Verdict.Fails : Verdict.CannotTell,
            message.CrcOk == true
                ? "The CRC is right, so this is what was sent."
                : "Either the header is wrong or the recording is cut: the CRC was not recorded.")
        {
            Expected = $"{claimed} bytes ({claimed / 4} objects)",
            Observed = $"{present} bytes ({present / 4} objects)",
            NextStep = message.CrcOk == true ? null : "Record the CRC, or whether it was right (\"crc\", \"crc_ok\").",
        });
    }
}
