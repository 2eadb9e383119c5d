using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Limits;

namespace Portwitness.PowerDelivery.Messages;

/// <summary>What R3.2v1.1, 6.2.1.2 says of chunks, each with its fault.</summary>
internal static class ChunkChecks
{
    internal static void Start(List<ChunkFault> faults, ExtendedHeader first, int number, SopKind sop)
    {
        if (number > 0)
        {
            faults.Add(new(ChunkFaultCode.NotStarted, number, $"Chunk {number} came, but not chunk 0."));
        }

        if (first.DataSize > MessageLimits.MaxExtendedMsgLen)
        {
            faults.Add(new(ChunkFaultCode.SizeBeyondLimit, number,
                $"Data Size is {first.DataSize}; at most {MessageLimits.MaxExtendedMsgLen} are allowed."));
        }

        if (!first.Chunked && first.ChunkNumber != 0)
        {
            faults.Add(new(ChunkFaultCode.UnchunkedWithNumber, number,
                $"Chunked is 0, but Chunk Number is {first.ChunkNumber}; it is 0 then."));
        }

        if (!first.Chunked && sop != SopKind.Sop)
        {
            faults.Add(new(ChunkFaultCode.UnchunkedWithCablePlug, number, "Chunked is 0; with cable plugs it is 1."));
        }
    }

    internal static void Order(List<ChunkFault> faults, ChunkBuffer buffer, ExtendedHeader extended, int number)
    {
        for (int missing = buffer.Next; missing < number; missing++)
        {
            faults.Add(new(ChunkFaultCode.MissingChunk, missing, $"Chunk {missing} is missing before chunk {number}."));
        }

        if (number < buffer.Next)
        {
            faults.Add(new(ChunkFaultCode.OutOfOrder, number, $"Chunk {number} came after chunk {buffer.Next - 1}."));
        }

        if (extended.DataSize != buffer.Size)
        {
            buffer.MarkFlawed();
            faults.Add(new(ChunkFaultCode.SizeDiffers, number,
                $"Data Size is {extended.DataSize} in chunk {number}, but was {buffer.Size}."));
        }
    }

    internal static void Content(
        List<ChunkFault> faults, ChunkBuffer buffer, in MessageView message, ExtendedHeader extended, int number, int present)
    {
        int length = buffer.LengthOf(number);
        if (length == 0 && number > 0)
        {
            faults.Add(new(ChunkFaultCode.BeyondSize, number,
                $"Chunk {number} begins after the {buffer.Size} bytes of the block."));
        }

        if (present < length)
        {
            faults.Add(new(ChunkFaultCode.CutShort, number, $"{present} of {length} bytes of chunk {number} are there."));
        }

        if (!extended.Chunked)
        {
            return;
        }

        int objects = (sizeof(ushort) + length + 3) / 4;
        if (message.ClaimedObjects != objects)
        {
            faults.Add(new(ChunkFaultCode.ObjectCountDiffers, number,
                $"Number of Data Objects is {message.ClaimedObjects}; {length} bytes of chunk {number} make {objects}."));
        }

        int end = Math.Min(message.Payload.Length, (objects * 4) - sizeof(ushort));
        if (end > present && message.Payload[present..end].ContainsAnyExcept((byte)0))
        {
            faults.Add(new(ChunkFaultCode.PaddingNotZero, number, $"The padding of chunk {number} is not zero."));
        }
    }
}
