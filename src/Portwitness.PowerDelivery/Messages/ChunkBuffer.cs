using System.Collections.Immutable;
using System.Numerics;
using Portwitness.PowerDelivery.ExtendedBlocks;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Limits;

namespace Portwitness.PowerDelivery.Messages;

/// <summary>One data block while its chunks come in.</summary>
internal sealed class ChunkBuffer
{
    private const int ChunkBytes = MessageLimits.MaxExtendedMsgChunkLen;
    private const int LargestSize = 511; // of the nine bits of Data Size
    private readonly byte[] bytes = new byte[LargestSize];
    private readonly byte[] known = new byte[LargestSize];
    private uint taken;
    private bool chunked;
    private bool flawed;

    internal bool IsCollecting { get; private set; }

    internal MessageKind Kind { get; private set; }

    internal int Size { get; private set; }

    /// <summary>The chunk after the highest that was taken.</summary>
    internal int Next => BitOperations.Log2((taken << 1) | 1);

    internal int ChunkCount => chunked ? Math.Max(1, (Size + ChunkBytes - 1) / ChunkBytes) : 1;

    internal ImmutableArray<int> Chunks =>
        [.. Enumerable.Range(0, Next).Where(Has)];

    /// <summary>All chunks are there, complete, and of one size.</summary>
    internal bool IsWhole => !flawed && BitOperations.PopCount(taken) == ChunkCount;

    internal bool Has(int number) => (taken & (1u << number)) != 0;

    internal void Start(MessageKind kind, ExtendedHeader first)
    {
        IsCollecting = true;
        Kind = kind;
        Size = first.DataSize;
        chunked = first.Chunked;
        taken = 0;
        flawed = false;
        Array.Clear(bytes);
        Array.Clear(known);
    }

    /// <summary>Bytes of the block that a chunk holds.</summary>
    internal int LengthOf(int number) => chunked ? Math.Clamp(Size - (number * ChunkBytes), 0, ChunkBytes) : Size;

    /// <summary>Stores a chunk as far as it is there, and tells how many bytes that is.</summary>
    /// <param name="number">Its number.</param>
    /// <param name="payload">Its bytes, with padding and what follows.</param>
    /// <param name="mask">Known bits, as long as the payload; empty when all are.</param>
    internal int Put(int number, ReadOnlySpan<byte> payload, ReadOnlySpan<byte> mask)
    {
        int length = Math.Min(LengthOf(number), payload.Length);
        flawed |= length < LengthOf(number) || number >= ChunkCount;
        taken |= 1u << number;
        if (length > 0)
        {
            int offset = number * ChunkBytes;
            payload[..length].CopyTo(bytes.AsSpan(offset));
            if (mask.IsEmpty)
            {
                known.AsSpan(offset, length).Fill(0xFF);
            }
            else
            {
                mask[..length].CopyTo(known.AsSpan(offset));
            }
        }

        return length;
    }

    internal void MarkFlawed() => flawed = true;

    /// <summary>Whether nothing more is to come after this chunk: it is the last, or all are there.</summary>
    internal bool IsOver(int number) => number >= ChunkCount - 1 || BitOperations.PopCount(taken) == ChunkCount;

    internal ChunkResult Finish(ChunkOutcome outcome, IEnumerable<ChunkFault> faults)
    {
        IsCollecting = false;
        return new ChunkResult(
            outcome, Kind, Size, Chunks, DataBlock.Of(bytes.AsSpan(0, Size), known.AsSpan(0, Size)), [.. faults]);
    }
}
