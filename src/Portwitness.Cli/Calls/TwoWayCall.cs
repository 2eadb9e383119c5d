using Google.Protobuf;
using Grpc.Core;
using Portwitness.Cli.Files;
using Portwitness.Cli.Shell;
using Portwitness.Contracts.V1;

namespace Portwitness.Cli.Calls;

/// <summary>
/// A call that takes a capture and answers while it does. A capture alone is sent as fast as the service takes it; with
/// measurements, both files are sent in turns as the service asks.
/// </summary>
internal sealed class TwoWayCall<TRequest, TResponse>(
    AsyncDuplexStreamingCall<TRequest, TResponse> call, CaptureSource source, FilePieces pieces, CancellationTokenSource stop)
    : IAsyncDisposable
    where TRequest : class
    where TResponse : class
{
    private Task _upload = Task.CompletedTask;

    public required Func<ByteString, TRequest> OfData { get; init; }

    public required TRequest OfEnd { get; init; }

    public required Func<TResponse, NeedPiece?> NeedIn { get; init; }

    /// <summary>Sends the options and the files, and hands every answer on.</summary>
    public async Task RunAsync(TRequest options, Func<TResponse, ValueTask> onResponse)
    {
        // Opened first: a capture that cannot be read is a mistake of the command line.
        Stream? stream = source.Reading?.Measurements is null ? source.Capture.Open() : null;
        _upload = stream is null ? TrySendAsync(() => call.RequestStream.WriteAsync(options)) : UploadAsync(options, stream);
        while (await call.ResponseStream.MoveNext(stop.Token))
        {
            TResponse response = call.ResponseStream.Current;
            if (NeedIn(response) is not { } need)
            {
                await onResponse(response);
                continue;
            }

            // What was sent before is done with, and its room is used again. Sending is not waited for here: the service may have
            // answers on the way that have to be taken first.
            await _upload;
            ByteString? piece = await pieces.NextAsync(need, source.Open, stop.Token);
            _upload = TrySendAsync(() => call.RequestStream.WriteAsync(piece is null ? OfEnd : OfData(piece)));
        }
    }

    // A file that cannot be read to its end ends the call; that is the failure to tell of.
    public async ValueTask DisposeAsync()
    {
        await stop.CancelAsync();
        await _upload;
    }

    private async Task UploadAsync(TRequest options, Stream stream)
    {
        await using (stream)
        {
            await TrySendAsync(async () =>
            {
                await call.RequestStream.WriteAsync(options);
                await pieces.SendAsync(
                    stream, source.Capture.Name, piece => call.RequestStream.WriteAsync(OfData(piece)), stop.Token);
                await call.RequestStream.CompleteAsync();
            });
        }
    }

    private async Task TrySendAsync(Func<Task> send)
    {
        try
        {
            await send();
        }
        catch (CommandFailure)
        {
            await stop.CancelAsync();
            throw;
        }
        catch (Exception exception) when (exception is RpcException or InvalidOperationException or OperationCanceledException)
        {
            // The call has ended; its answer says why.
        }
    }
}
