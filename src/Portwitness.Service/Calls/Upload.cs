using Google.Protobuf;
using Portwitness.Analysis;

namespace Portwitness.Service.Calls;

/// <summary>Feeds one uploaded file to its analyzer and holds it to the limits.</summary>
internal sealed class Upload(CaptureAnalyzer analyzer, ServiceLimits limits)
{
    // Small enough that the messages of one slice need little room until they are sent.
    private const int SliceBytes = 16 << 10;

    public long Bytes { get; private set; }

    /// <summary>Takes one piece, slice by slice; <paramref name="afterSlice"/> may wait for the client to keep up.</summary>
    public async ValueTask TakeAsync(ByteString piece, Func<ValueTask> afterSlice, CancellationToken cancellation)
    {
        if (piece.Length > limits.PieceBytes)
        {
            throw InvalidRequest.Because("data", $"{piece.Length} bytes; a piece holds at most {limits.PieceBytes}. Send more pieces.");
        }

        Bytes += piece.Length;
        if (Bytes > limits.FileBytes)
        {
            throw InvalidRequest.Because("data", $"the file is longer than the {limits.FileBytes} bytes that this service takes.");
        }

        for (ReadOnlyMemory<byte> rest = piece.Memory; !rest.IsEmpty;)
        {
            cancellation.ThrowIfCancellationRequested();
            ReadOnlyMemory<byte> slice = rest[..Math.Min(SliceBytes, rest.Length)];
            analyzer.Write(slice.Span);
            await afterSlice();
            rest = rest[slice.Length..];
        }
    }
}
