using Grpc.Core;
using Portwitness.Cli.Files;
using Portwitness.Cli.Shell;
using Portwitness.Contracts.V1;

namespace Portwitness.Cli.Calls;

/// <summary>Sends one capture while its messages come back.</summary>
internal static class DecodeDialogue
{
    public static async Task<DecodedCapture> RunAsync(
        Witness.WitnessClient client, CaptureSource source, DecodeOptions options, Action<DecodedMessages> onMessages,
        CancellationToken cancellation)
    {
        options.Read = source.Reading;
        using CancellationTokenSource stop = CancellationTokenSource.CreateLinkedTokenSource(cancellation);
        using AsyncDuplexStreamingCall<DecodeRequest, DecodeResponse> call = client.Decode(cancellationToken: stop.Token);
        using FilePieces pieces = new(source.Progress);
        await using TwoWayCall<DecodeRequest, DecodeResponse> dialogue = new(call, source, pieces, stop)
        {
            OfData = data => new DecodeRequest { Data = data },
            OfEnd = new DecodeRequest { End = new FileEnd() },
            NeedIn = response => response.NeedPiece,
        };
        DecodedCapture? capture = null;
        await dialogue.RunAsync(new DecodeRequest { Options = options }, response =>
        {
            if (response.PartCase == DecodeResponse.PartOneofCase.Messages)
            {
                onMessages(response.Messages);
            }

            capture = response.Capture ?? capture;
            return ValueTask.CompletedTask;
        });
        return capture ?? throw new CommandFailure("the service ended without an answer.");
    }
}
