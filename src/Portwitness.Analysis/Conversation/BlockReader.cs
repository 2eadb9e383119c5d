using Portwitness.Captures;
using Portwitness.PowerDelivery.Messages;

namespace Portwitness.Analysis.Conversation;

/// <summary>Puts the data blocks of extended messages together, for each SOP kind and each direction.</summary>
internal sealed class BlockReader
{
    private const int SopKinds = 5;

    private readonly (ChunkAssembler FromPort, ChunkAssembler FromOther)?[] _assemblers = new (ChunkAssembler, ChunkAssembler)?[SopKinds];

    /// <summary>
    /// Takes a message; the result says whether it completes a block, what it broke off, and what is wrong with its
    /// chunks. Null for a message of which bits were not shown and which is no chunk: it says nothing of chunks.
    /// </summary>
    public ChunkResult? Add(in MessageRecord record, in MessageView view)
    {
        if (!record.Known.IsEmpty && view.ExtendedHeader is not { Chunked: true })
        {
            return null;
        }

        (ChunkAssembler FromPort, ChunkAssembler FromOther) pair =
            _assemblers[(int)record.Sop] ??= (new ChunkAssembler(record.Sop), new ChunkAssembler(record.Sop));

        (ChunkAssembler sender, ChunkAssembler receiver) = view.Header.SourceOrCablePlug ? pair : (pair.FromOther, pair.FromPort);
        ChunkResult heard = receiver.HearReceiver(view, record.Known);
        ChunkResult result = sender.HearSender(view, record.Known);

        // A request for a chunk is judged by who is asked; everything else by who sends.
        return heard.Outcome == ChunkOutcome.ChunkRequest ? heard
            : heard.BrokenOff is null ? result
            : result with { BrokenOff = heard.BrokenOff };
    }

    /// <summary>Forgets what was begun, and gives it; for resets, detaching, and the end of a capture.</summary>
    public IEnumerable<ChunkResult> BreakOff() => _assemblers
        .SelectMany(static pair => pair is { } both ? new[] { both.FromPort.BreakOff(), both.FromOther.BreakOff() } : [])
        .OfType<ChunkResult>();
}
