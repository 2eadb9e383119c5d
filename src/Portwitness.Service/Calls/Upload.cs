using Google.Protobuf;
using Portwitness.Captures;

namespace Portwitness.Service.Calls;

/// <summary>Feeds uploaded files to their readers and holds them to the limits.</summary>
internal sealed class Upload(CaptureInput input, ServiceLimits limits)
{
    // Small enough that the messages of one slice need little room until they are sent.
    private const int SliceBytes = 16 << 10;

    public long Bytes { get; private set; }

    /// <summary>Takes one piece of the capture.</summary>
    public ValueTask TakeAsync(ByteString piece, Func<ValueTask> afterSlice, CancellationToken cancellation) =>
        TakeAsync(piece, NeededInput.Capture, afterSlice, cancellation);

    /// <summary>Takes one piece, slice by slice; <paramref name="afterSlice"/> may wait for the client to keep up.</summary>
    public async ValueTask TakeAsync(
        ByteString piece, NeededInput of, Func<ValueTask> afterSlice, CancellationToken cancellation)
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
            if (of == NeededInput.Measurements)
            {
                input.WriteMeasurements(slice.Span);
            }
            else
            {
                input.Write(slice.Span);
            }

            await afterSlice();
            rest = rest[slice.Length..];
        }
    }

    /// <summary>Asks for capture and measurements in turns until both have ended.</summary>
    /// <param name="ask">Gets the next piece of an input; null at its end.</param>
    /// <param name="afterSlice">May wait for the client to keep up.</param>
    /// <param name="cancellation">Stops it.</param>
    public async Task TakeInTurnsAsync(
        Func<NeededInput, Task<ByteString?>> ask, Func<ValueTask> afterSlice, CancellationToken cancellation)
    {
        while (input.Wanted is not NeededInput.None and var wanted)
        {
            if (await ask(wanted) is { } piece)
            {
                await TakeAsync(piece, wanted, afterSlice, cancellation);
            }
            else if (wanted == NeededInput.Measurements)
            {
                input.EndMeasurements();
            }
            else
            {
                input.EndCapture();
            }

            await afterSlice();
        }
    }
}
