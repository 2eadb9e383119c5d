using Portwitness.Following.Links;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Limits;

namespace Portwitness.Following.Exchanges;

/// <summary>The times between chunks of one sender's messages and the requests for them (R3.2v1.1, 6.2.1.2).</summary>
public sealed class ChunkPace
{
    private KeptDelivery _chunk;
    private KeptDelivery _request;

    /// <summary>The sender of chunks says something: a chunk that was asked for, or another message in its place.</summary>
    public void OnSent(in Delivery delivery, Party party, IConversationListener listener)
    {
        if (_request is { IsKept: true, Value.IsAcknowledged: true })
        {
            ref readonly Delivery request = ref _request.Value;
            bool isChunk = delivery.Kind == request.Kind && delivery.Extended is { RequestChunk: false } extended
                && extended.ChunkNumber == request.Extended!.Value.ChunkNumber;
            if (isChunk)
            {
                listener.OnElapsed(Late(TimingLimits.TChunkReceiverResponse, request, delivery, party, Awaited.Chunk));
            }
            else if (delivery.GoesOnForCertain)
            {
                listener.OnChunkMissing(request, delivery);
            }
        }

        Reset();
        if (delivery.HasMoreChunks)
        {
            _chunk.Keep(delivery);
        }
    }

    /// <summary>The receiver of chunks says something.</summary>
    public void OnHeard(in Delivery delivery, Party party, IConversationListener listener)
    {
        if (_chunk is { IsKept: true, Value.IsAcknowledged: true })
        {
            ref readonly Delivery chunk = ref _chunk.Value;
            if (delivery.Extended is { RequestChunk: true } && delivery.Kind == chunk.Kind)
            {
                listener.OnElapsed(Late(TimingLimits.TChunkReceiverRequest, chunk, delivery, party, Awaited.ChunkRequest));
            }
            else if (delivery.Kind == MessageKind.NotSupported)
            {
                listener.OnElapsed(Late(TimingLimits.TChunkingNotSupported, chunk, delivery, party, Awaited.ChunkRefusal) with
                {
                    Bounds = Bounds.Min,
                });
            }
        }

        Reset();
        if (delivery.Extended is { RequestChunk: true })
        {
            _request.Keep(delivery);
        }
    }

    /// <summary>A message was acknowledged or sent again.</summary>
    public void Update(in Delivery delivery)
    {
        _chunk.Update(delivery);
        _request.Update(delivery);
    }

    /// <summary>Nothing is expected any more.</summary>
    public void Reset()
    {
        _chunk.Forget();
        _request.Forget();
    }

    private static Interval Late(string limit, in Delivery from, in Delivery to, Party party, Awaited awaited) =>
        new(limit, Moment.EndOfGoodCrc(from.AcknowledgedUs), to.Start)
        {
            Party = party, Awaited = awaited, Index = to.Index, Bounds = Bounds.Max,
            LateAllowanceUs = ExchangeFollower.LostAttempts(to), IsProven = to.Continuity == Continuity.Continuous,
        };
}
