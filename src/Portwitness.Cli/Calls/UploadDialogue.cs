using Google.Protobuf;
using Grpc.Core;
using Portwitness.Cli.Shell;
using Portwitness.Contracts.V1;

namespace Portwitness.Cli.Calls;

/// <summary>Sends one file, from where an earlier call stopped.</summary>
internal static class UploadDialogue
{
    private const int PieceBytes = 1 << 20;

    /// <param name="client">The service.</param>
    /// <param name="stream">The file, which can be sought in.</param>
    /// <param name="file">Its name, for people.</param>
    /// <param name="hash">Its SHA-256.</param>
    /// <param name="progress">Told how far it is.</param>
    /// <param name="cancellation">Stops it.</param>
    public static async Task RunAsync(Witness.WitnessClient client, Stream stream, string file, string hash, Progress progress, CancellationToken cancellation)
    {
        using AsyncDuplexStreamingCall<UploadRequest, UploadResponse> call = client.Upload(cancellationToken: cancellation);
        try
        {
            await call.RequestStream.WriteAsync(new UploadRequest { Start = new UploadStart { Sha256 = hash, Bytes = stream.Length } }, cancellation);
        }
        catch (Exception exception) when (exception is RpcException or InvalidOperationException)
        {
            // The answer says why.
        }

        bool isComplete = false;
        Task sending = Task.CompletedTask;
        while (await call.ResponseStream.MoveNext(cancellation))
        {
            UploadResponse answer = call.ResponseStream.Current;
            isComplete = answer.Complete;
            if (sending == Task.CompletedTask)
            {
                stream.Position = answer.Offset;
                sending = isComplete ? call.RequestStream.CompleteAsync() : SendAsync(call.RequestStream, stream, file, progress, cancellation);
            }
        }

        await sending;
        if (!isComplete)
        {
            throw new CommandFailure($"{file}: is shorter now than it was; submit it again when it is complete.");
        }
    }

    private static async Task SendAsync(IClientStreamWriter<UploadRequest> requests, Stream stream, string file, Progress progress, CancellationToken cancellation)
    {
        // One that has grown meanwhile is sent as far as was said.
        progress.Begin(file, stream.Length - stream.Position);
        try
        {
            byte[] piece = new byte[PieceBytes];
            for (int length; (length = await stream.ReadAsync(piece, cancellation)) > 0;)
            {
                await requests.WriteAsync(new UploadRequest { Data = UnsafeByteOperations.UnsafeWrap(piece.AsMemory(0, length)) }, cancellation);
                progress.Add(length);
            }

            await requests.CompleteAsync();
        }
        catch (Exception exception) when (exception is RpcException or InvalidOperationException)
        {
            // The call has ended; its answer says why.
        }
        finally
        {
            progress.End();
        }
    }
}
