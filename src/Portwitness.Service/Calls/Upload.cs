using Google.Protobuf;
using Portwitness.Captures.Formats;
using Portwitness.Captures.Measurements;
using Portwitness.Product;
using Portwitness.Product.Energy;
using Portwitness.Service.Telemetry;
using Portwitness.Service.Validation;

namespace Portwitness.Service.Calls;

/// <summary>Feeds an uploaded capture, with its measurements, a log of power, or a label to its reader and holds it to the limits.</summary>
internal sealed class Upload
{
    private readonly ServiceLimits _limits;
    private readonly CaptureInput? _capture;
    private readonly CaptureIntake? _ports;
    private readonly LogIntake? _log;
    private readonly LabelIntake? _label;
    private readonly WatchedCall _call;

    public Upload(CaptureInput capture, ServiceLimits limits, WatchedCall call) => (_capture, _limits, _call) = (capture, limits, call);

    public Upload(CaptureIntake ports, ServiceLimits limits, WatchedCall call) => (_ports, _limits, _call) = (ports, limits, call);

    public Upload(LogIntake log, ServiceLimits limits, WatchedCall call) => (_log, _limits, _call) = (log, limits, call);

    public Upload(LabelIntake label, ServiceLimits limits, WatchedCall call) => (_label, _limits, _call) = (label, limits, call);

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
        if (piece.Length > _limits.PieceBytes)
        {
            throw InvalidRequest.TooMuch("data", $"{piece.Length} bytes; a piece holds at most {_limits.PieceBytes}. Send more pieces.");
        }

        Bytes += piece.Length;
        _call.Received(piece.Length);
        if (Bytes > _limits.FileBytes)
        {
            throw InvalidRequest.TooMuch("data", $"the file is longer than the {_limits.FileBytes} bytes that this service takes.");
        }

        for (ReadOnlyMemory<byte> rest = piece.Memory; !rest.IsEmpty;)
        {
            cancellation.ThrowIfCancellationRequested();
            ReadOnlyMemory<byte> slice = rest[..Math.Min(SliceBytes, rest.Length)];
            if (of == NeededInput.Measurements)
            {
                _capture!.WriteMeasurements(slice.Span);
            }
            else
            {
                _capture?.Write(slice.Span);
                _ports?.Write(slice);
                _log?.Write(slice.Span);
                _label?.Write(slice.Span);
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
        CaptureInput input = _capture!;
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
