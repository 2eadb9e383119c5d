using Google.Protobuf;
using Grpc.Core;
using Portwitness.Captures;
using Portwitness.Captures.Archives;
using Portwitness.Captures.Formats;
using Portwitness.Captures.Measurements;
using Portwitness.Service.Telemetry;
using Portwitness.Service.Translation;
using Portwitness.Service.Validation;

using Wire = Portwitness.Contracts.V1;

namespace Portwitness.Service.Calls;

/// <summary>One Convert call: options, bytes, and what was written back as it is read.</summary>
internal sealed class ConvertCall(
    ServiceLimits limits,
    WatchedCall call,
    IAsyncStreamReader<Wire.ConvertRequest> requests,
    IServerStreamWriter<Wire.ConvertResponse> responses,
    CancellationToken cancellation) : IDisposable
{
    private const int AnswerBytes = 64 << 10;

    private readonly MemoryStream _written = new();
    private Wire.ConvertOptions _options = new();

    public async Task<(Wire.Conversion Conversion, long Bytes)> RunAsync()
    {
        (CaptureReadOptions reading, CaptureFormat format, bool packed) = await ReadOptionsAsync();
        Conversion conversion;
        CaptureInput input;
        Upload upload;
        using (ICaptureWriter writer = format.Begin(_written, packed))
        {
            conversion = new Conversion(writer);
            input = new CaptureInput(conversion, reading);
            upload = new Upload(input, limits, call);
            await ReceiveAsync(upload, reading.Measurements is not null);
            input.Complete();
        }

        // An input that is no capture leaves nothing, not even the frame of an empty file.
        if (conversion.HasBegun)
        {
            await SendWrittenAsync(1);
        }

        call.Read(messages: 0);
        Wire.Conversion done = conversion.ToContract(_options.File, input.Format, packed ? $"{format.Name}{Gzip.Ending}" : format.Name);
        await responses.WriteAsync(new Wire.ConvertResponse { Conversion = done }, cancellation);
        return (done, upload.Bytes);
    }

    public void Dispose() => _written.Dispose();

    private async Task<(CaptureReadOptions Reading, CaptureFormat Format, bool Packed)> ReadOptionsAsync()
    {
        if (!await requests.MoveNext(cancellation)
            || requests.Current.PartCase != Wire.ConvertRequest.PartOneofCase.Options)
        {
            throw InvalidRequest.Because("options", "missing; they are the first message of a call.");
        }

        _options = requests.Current.Options;
        InvalidRequest invalid = new();
        invalid.CheckName("options.file", _options.File, limits);
        CaptureReadOptions reading = invalid.ReadReading("options.read", _options.Read, limits);
        (CaptureFormat? format, bool packed) = invalid.ReadFormat("options.to", _options.To, limits);
        invalid.ThrowIfAny();
        return (reading, format!, packed);
    }

    private async Task ReceiveAsync(Upload upload, bool inTurns)
    {
        if (inTurns)
        {
            await upload.TakeInTurnsAsync(AskAsync, () => SendWrittenAsync(AnswerBytes), cancellation);
            return;
        }

        while (await requests.MoveNext(cancellation))
        {
            if (requests.Current.PartCase != Wire.ConvertRequest.PartOneofCase.Data)
            {
                throw InvalidRequest.Because("options", "sent twice; after the options only data may follow.");
            }

            await upload.TakeAsync(requests.Current.Data, () => SendWrittenAsync(AnswerBytes), cancellation);
        }
    }

    private async Task<ByteString?> AskAsync(NeededInput wanted)
    {
        string file = wanted == NeededInput.Measurements ? _options.Read.Measurements.File : _options.File;
        await responses.WriteAsync(new Wire.ConvertResponse { NeedPiece = wanted.ToContract(file) }, cancellation);
        bool isThere = await requests.MoveNext(cancellation);
        return (isThere ? requests.Current.PartCase : Wire.ConvertRequest.PartOneofCase.None) switch
        {
            Wire.ConvertRequest.PartOneofCase.Data => requests.Current.Data,
            Wire.ConvertRequest.PartOneofCase.End => null,
            _ => throw InvalidRequest.Because("part", "missing; send data or end for the file that was asked for."),
        };
    }

    // Writing waits until the client has room: a slow reader slows the reading of its own upload.
    private async ValueTask SendWrittenAsync(int atLeast)
    {
        if (!_written.TryGetBuffer(out ArraySegment<byte> bytes) || bytes.Count < atLeast)
        {
            return;
        }

        // Copied, because within a process an answer is handed over as it is and may be read later.
        for (int sent = 0; sent < bytes.Count; sent += AnswerBytes)
        {
            ByteString piece = ByteString.CopyFrom(bytes.AsSpan(sent, Math.Min(AnswerBytes, bytes.Count - sent)));
            await responses.WriteAsync(new Wire.ConvertResponse { Data = piece }, cancellation);
        }

        _written.SetLength(0);
    }
}
