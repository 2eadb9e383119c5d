using Google.Protobuf;
using Grpc.Core;
using Portwitness.Analysis;
using Portwitness.Analysis.Conversation;
using Portwitness.Captures.Measurements;
using Portwitness.Service.Telemetry;
using Portwitness.Service.Translation;
using Portwitness.Service.Validation;

using Wire = Portwitness.Contracts.V1;

namespace Portwitness.Service.Calls;

/// <summary>One Decode call: options, bytes, and messages back as they are read.</summary>
internal sealed class DecodeCall(
    ServiceLimits limits,
    WatchedCall call,
    IAsyncStreamReader<Wire.DecodeRequest> requests,
    IServerStreamWriter<Wire.DecodeResponse> responses,
    CancellationToken cancellation)
{
    private Wire.DecodedMessages _unsent = new();
    private Wire.DecodeOptions _options = new();

    public async Task<(CaptureAnalysis Analysis, long Bytes)> RunAsync()
    {
        CaptureOptions options = await ReadOptionsAsync();
        CaptureAnalyzer analyzer = new(options);
        Upload upload = new(analyzer.Input, limits, call);
        await ReceiveAsync(upload, options.Reading.Measurements is not null);
        CaptureAnalysis analysis = analyzer.Complete();
        call.Answered(analysis);
        await SendMessagesAsync();
        await responses.WriteAsync(new Wire.DecodeResponse { Capture = analysis.ToContract() }, cancellation);
        return (analysis, upload.Bytes);
    }

    private async Task ReceiveAsync(Upload upload, bool inTurns)
    {
        if (inTurns)
        {
            await upload.TakeInTurnsAsync(AskAsync, SendFullAnswerAsync, cancellation);
            return;
        }

        while (await requests.MoveNext(cancellation))
        {
            if (requests.Current.PartCase != Wire.DecodeRequest.PartOneofCase.Data)
            {
                throw InvalidRequest.Because("options", "sent twice; after the options only data may follow.");
            }

            await upload.TakeAsync(requests.Current.Data, SendFullAnswerAsync, cancellation);
        }
    }

    private async Task<ByteString?> AskAsync(NeededInput wanted)
    {
        string file = wanted == NeededInput.Measurements ? _options.Read.Measurements.File : _options.File;
        await responses.WriteAsync(new Wire.DecodeResponse { NeedPiece = wanted.ToContract(file) }, cancellation);
        bool isThere = await requests.MoveNext(cancellation);
        return (isThere ? requests.Current.PartCase : Wire.DecodeRequest.PartOneofCase.None) switch
        {
            Wire.DecodeRequest.PartOneofCase.Data => requests.Current.Data,
            Wire.DecodeRequest.PartOneofCase.End => null,
            _ => throw InvalidRequest.Because("part", "missing; send data or end for the file that was asked for."),
        };
    }

    private async Task<CaptureOptions> ReadOptionsAsync()
    {
        if (!await requests.MoveNext(cancellation)
            || requests.Current.PartCase != Wire.DecodeRequest.PartOneofCase.Options)
        {
            throw InvalidRequest.Because("options", "missing; they are the first message of a call.");
        }

        Wire.DecodeOptions options = _options = requests.Current.Options;
        InvalidRequest invalid = new();
        CaptureOptions read = DecodeSetup.Read(options, invalid, limits, message => _unsent.Messages.Add(message.ToContract()));
        invalid.ThrowIfAny();
        return read;
    }

    private ValueTask SendFullAnswerAsync() =>
        _unsent.Messages.Count < limits.MessagesPerAnswer ? ValueTask.CompletedTask : SendMessagesAsync();

    // Writing waits until the client has room: a slow reader slows the reading of its own upload.
    private async ValueTask SendMessagesAsync()
    {
        if (_unsent.Messages.Count > 0)
        {
            Wire.DecodedMessages answer = _unsent;
            _unsent = new();
            await responses.WriteAsync(new Wire.DecodeResponse { Messages = answer }, cancellation);
        }
    }
}
