using Google.Protobuf;
using Grpc.Core;
using Portwitness.Cli.Shell;
using Portwitness.Contracts.V1;

namespace Portwitness.Cli.Calls;

/// <summary>Sends a capture while it is recorded, and hands on what comes back.</summary>
internal static class WatchDialogue
{
    private const int PieceBytes = 64 << 10;

    /// <param name="client">The service.</param>
    /// <param name="options">How it is decoded.</param>
    /// <param name="read">Reads the next bytes; 0 at the end.</param>
    /// <param name="onResponse">Told of everything but the whole capture.</param>
    /// <param name="cancellation">Stops it.</param>
    /// <returns>The whole capture.</returns>
    public static async Task<DecodedCapture> RunAsync(
        Witness.WitnessClient client, DecodeOptions options, Func<Memory<byte>, Task<int>> read, Action<WatchResponse> onResponse, CancellationToken cancellation)
    {
        using CancellationTokenSource stop = CancellationTokenSource.CreateLinkedTokenSource(cancellation);
        using AsyncDuplexStreamingCall<DecodeRequest, WatchResponse> call = client.Watch(cancellationToken: stop.Token);
        Task sending = SendAsync(call.RequestStream, options, read, stop);
        DecodedCapture? capture = null;
        try
        {
            while (await call.ResponseStream.MoveNext(stop.Token))
            {
                if (call.ResponseStream.Current.Capture is { } whole)
                {
                    capture = whole;
                }
                else
                {
                    onResponse(call.ResponseStream.Current);
                }
            }
        }
        catch (Exception exception) when (exception is RpcException or OperationCanceledException && stop.IsCancellationRequested && !cancellation.IsCancellationRequested)
        {
            // What could not be read is why the call ended.
            await sending;
        }

        return capture ?? throw new CommandFailure("the service ended without an answer.");
    }

    private static async Task SendAsync(
        IClientStreamWriter<DecodeRequest> requests, DecodeOptions options, Func<Memory<byte>, Task<int>> read, CancellationTokenSource stop)
    {
        try
        {
            await requests.WriteAsync(new DecodeRequest { Options = options }, stop.Token);
            byte[] piece = new byte[PieceBytes];
            for (int length; (length = await read(piece)) > 0;)
            {
                await requests.WriteAsync(new DecodeRequest { Data = UnsafeByteOperations.UnsafeWrap(piece.AsMemory(0, length)) }, stop.Token);
            }

            await requests.CompleteAsync();
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
