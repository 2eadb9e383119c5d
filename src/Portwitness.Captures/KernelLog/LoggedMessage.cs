using System.Buffers.Binary;
using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Headers;

namespace Portwitness.Captures.KernelLog;

/// <summary>A message as far as the log has shown it: the header at first, then object by object.</summary>
internal sealed class LoggedMessage
{
    private const int HeaderBytes = 2;
    private const int ObjectBytes = 4;
    private const int MaximumObjects = 7;

    private readonly byte[] _bytes = new byte[HeaderBytes + (MaximumObjects * ObjectBytes)];
    private readonly byte[] _known = new byte[HeaderBytes + (MaximumObjects * ObjectBytes)];
    private int _shown;

    /// <summary>The header as printed.</summary>
    public MessageHeader Header { get; private set; }

    public long TimeUs { get; private set; }

    public long Line { get; private set; }

    /// <summary>Whether each object that the header counts has been shown.</summary>
    public bool IsComplete => _shown == (1 << Header.ObjectCount) - 1;

    /// <summary>Begins anew with a header; no object is known yet.</summary>
    public void Begin(MessageHeader header, long timeUs, long line)
    {
        (Header, TimeUs, Line, _shown) = (header, timeUs, line, 0);
        _bytes.AsSpan().Clear();
        _known.AsSpan().Clear();
        BinaryPrimitives.WriteUInt16LittleEndian(_bytes, header.Raw);
        BinaryPrimitives.WriteUInt16LittleEndian(_known, ushort.MaxValue);
    }

    /// <summary>Fills an object in; false when there is none with that index, counted from 0, or it has been shown.</summary>
    public bool TrySet(int index, uint value, uint known)
    {
        if (index >= Header.ObjectCount || (_shown & (1 << index)) != 0)
        {
            return false;
        }

        _shown |= 1 << index;
        int at = HeaderBytes + (index * ObjectBytes);
        BinaryPrimitives.WriteUInt32LittleEndian(_bytes.AsSpan(at), value);
        BinaryPrimitives.WriteUInt32LittleEndian(_known.AsSpan(at), known);
        return true;
    }

    /// <summary>Hands the message on.</summary>
    public void HandTo(ICaptureSink sink)
    {
        int length = HeaderBytes + (Header.ObjectCount * ObjectBytes);
        ReadOnlySpan<byte> known = _known.AsSpan(0, length);
        sink.OnMessage(new MessageRecord
        {
            TimeUs = TimeUs,
            Line = Line,
            Sop = SopKind.Sop,
            Bytes = _bytes.AsSpan(0, length),
            Known = known.ContainsAnyExcept(byte.MaxValue) ? known : [],
        });
    }
}
