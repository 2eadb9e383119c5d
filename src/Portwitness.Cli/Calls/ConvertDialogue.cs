using Google.Protobuf;
using Grpc.Core;
using Portwitness.Cli.Files;
using Portwitness.Cli.Shell;
using Portwitness.Contracts.V1;

namespace Portwitness.Cli.Calls;

/// <summary>Sends one capture while what is written of it comes back.</summary>
internal static class ConvertDialogue
{
    public static async Task<Conversion> RunAsync(
        Witness.WitnessClient client, CaptureSource source, ConvertOptions options,
        Func<ByteString, CancellationToken, ValueTask> write, CancellationToken cancellation)
    {
        options.Read = source.Reading;
        using CancellationTokenSource stop = CancellationTokenSource.CreateLinkedTokenSource(cancellation);
        using AsyncDuplexStreamingCall<ConvertRequest, ConvertResponse> call = client.Convert(cancellationToken: stop.Token);
        using FilePieces pieces = new(source.Progress);
        await using TwoWayCall<ConvertRequest, ConvertResponse> dialogue = new(call, source, pieces, stop)
        {
            OfData = data => new ConvertRequest { Data = data },
            OfEnd = new ConvertRequest { End = new FileEnd() },
            NeedIn = response => response.NeedPiece,
        };
        Conversion? conversion = null;
        await dialogue.RunAsync(new ConvertRequest { Options = options }, async response =>
        {
            if (response.PartCase == ConvertResponse.PartOneofCase.Data)
            {
                await write(response.Data, stop.Token);
            }

            conversion = response.Conversion ?? conversion;
        });
        return conversion ?? throw new CommandFailure("the service ended without an answer.");
    }
}
