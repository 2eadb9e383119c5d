using Portwitness.Captures;
using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Messages;

namespace Portwitness.Analysis.Conversation;

/// <summary>Puts the data blocks of extended messages together, for each SOP kind and each direction.</summary>
internal sealed class BlockReader
{
    private readonly Dictionary<SopKind, (ChunkAssembler FromPort, ChunkAssembler FromOther)> _assemblers = [];

    /// <summary>
    /// Takes a message; the result says whether it completes a block, what it broke off, and what is wrong with its
    /// chunks. Null for a message of which bits were not shown and which is no chunk: it says nothing of chunks.
    /// </summary>
    public ChunkResult? Take(in MessageRecord record, in MessageView view)
    {
        if (!record.Known.IsEmpty && view.ExtendedHeader is not { Chunked: true })
        {
            return null;
        }

        if (!_assemblers.TryGetValue(record.Sop, out (ChunkAssembler FromPort, ChunkAssembler FromOther) pair))
        {
            pair = (new ChunkAssembler(record.Sop), new ChunkAssembler(record.Sop));
            _assemblers.Add(record.Sop, pair);
        }

        (ChunkAssembler sender, ChunkAssembler receiver) = view.Header.SourceOrCablePlug ? pair : (pair.FromOther, pair.FromPort);
        ChunkResult heard = receiver.TakeFromReceiver(view, record.Known);
        ChunkResult result = sender.Take(view, record.Known);

        // A request for a chunk is judged by who is asked; everything else by who sends.
        return heard.Outcome == ChunkOutcome.ChunkRequest ? heard
            : heard.BrokenOff is null ? result
            : result with { BrokenOff = heard.BrokenOff };
    }

    /// <summary>Forgets what was begun, and gives it; for resets, detaching, and the end of a capture.</summary>
    public IEnumerable<ChunkResult> BreakOff() => _assemblers.Values
        .SelectMany(pair => new[] { pair.FromPort.BreakOff(), pair.FromOther.BreakOff() })
        .OfType<ChunkResult>();
}
