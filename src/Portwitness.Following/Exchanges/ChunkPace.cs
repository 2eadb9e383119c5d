using Portwitness.Following.Links;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Limits;

namespace Portwitness.Following.Exchanges;

/// <summary>The times between chunks of one sender's messages and the requests for them (R3.2v1.1, 6.2.1.2).</summary>
public sealed class ChunkPace
{
    private Delivery? _chunk;
    private Delivery? _request;

    /// <summary>The sender of chunks says something; gives the request that it should have answered with a chunk.</summary>
    public Delivery? OnSent(in Delivery delivery, Party party, IConversationListener listener)
    {
        Delivery? unmet = null;
        if (_request is { IsAcknowledged: true } request)
        {
            bool isChunk = delivery.Kind == request.Kind && delivery.Extended is { RequestChunk: false } extended
                && extended.ChunkNumber == request.Extended!.Value.ChunkNumber;
            if (isChunk)
            {
                listener.OnElapsed(Late(TimingLimits.TChunkReceiverResponse, request, delivery, party, Awaited.Chunk));
            }
            else if (delivery.GoesOnForCertain)
            {
                unmet = request;
            }
        }

        Reset();
        if (delivery.HasMoreChunks)
        {
            _chunk = delivery;
        }

        return unmet;
    }

    /// <summary>The receiver of chunks says something.</summary>
    public void OnHeard(in Delivery delivery, Party party, IConversationListener listener)
    {
        if (_chunk is { IsAcknowledged: true } chunk)
        {
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
            _request = delivery;
        }
    }

    /// <summary>A message was acknowledged or sent again.</summary>
    public void Update(in Delivery delivery)
    {
        if (_chunk?.Index == delivery.Index)
        {
            _chunk = delivery;
        }

        if (_request?.Index == delivery.Index)
        {
            _request = delivery;
        }
    }

    /// <summary>Nothing is expected any more.</summary>
    public void Reset()
    {
        // Most messages have no chunks, and a delivery is long.
        if (_chunk is not null || _request is not null)
        {
            (_chunk, _request) = (null, null);
        }
    }

    private static Interval Late(string limit, in Delivery from, in Delivery to, Party party, Awaited awaited) =>
        new(limit, Moment.EndOfGoodCrc(from.AcknowledgedUs), to.Start)
        {
            Party = party, Awaited = awaited, Index = to.Index, Bounds = Bounds.Max,
            LateAllowanceUs = ExchangeFollower.LostAttempts(to), IsProven = to.Continuity == Continuity.Continuous,
        };
}
