using Grpc.Core;
using Portwitness.Cli.Files;
using Portwitness.Contracts.V1;

namespace Portwitness.Cli.Calls;

/// <summary>Sends one capture while its messages come back.</summary>
internal static class DecodeDialogue
{
    public static async Task<DecodedCapture> RunAsync(
        Witness.WitnessClient client, InputFile input, DecodeOptions options, Action<DecodedMessages> onMessages,
        CancellationToken cancellation)
    {
        await using Stream stream = input.Open();
        using CancellationTokenSource stop = CancellationTokenSource.CreateLinkedTokenSource(cancellation);
        using AsyncDuplexStreamingCall<DecodeRequest, DecodeResponse> call = client.Decode(cancellationToken: stop.Token);
        Task upload = UploadAsync(call.RequestStream, stream, input.Name, options, stop);
        try
        {
            DecodedCapture? capture = null;
            while (await call.ResponseStream.MoveNext(stop.Token))
            {
                DecodeResponse response = call.ResponseStream.Current;
                if (response.PartCase == DecodeResponse.PartOneofCase.Messages)
                {
                    onMessages(response.Messages);
                }

                capture = response.Capture ?? capture;
            }

            return capture ?? throw new CommandFailure("the service ended without an answer.");
        }
        finally
        {
            // A file that cannot be read to its end ends the call; that is the failure to tell of.
            await stop.CancelAsync();
            await upload;
        }
    }

    private static async Task UploadAsync(
        IClientStreamWriter<DecodeRequest> requests, Stream stream, string name, DecodeOptions options,
        CancellationTokenSource stop)
    {
        try
        {
            await requests.WriteAsync(new DecodeRequest { Options = options });
            await FilePieces.SendAsync(
                stream, name, piece => requests.WriteAsync(new DecodeRequest { Data = piece }), stop.Token);
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
