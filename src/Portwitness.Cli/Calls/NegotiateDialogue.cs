using Grpc.Core;
using Portwitness.Cli.Files;
using Portwitness.Cli.Shell;
using Portwitness.Contracts.V1;

namespace Portwitness.Cli.Calls;

/// <summary>Sends the options, and one capture unless a label is the source, and takes the report.</summary>
internal static class NegotiateDialogue
{
    public static async Task<NegotiationReport> RunAsync(
        Witness.WitnessClient client, CaptureSource source, NegotiateOptions options, CancellationToken cancellation)
    {
        using CancellationTokenSource stop = CancellationTokenSource.CreateLinkedTokenSource(cancellation);
        using AsyncDuplexStreamingCall<NegotiateRequest, NegotiateResponse> call = client.Negotiate(cancellationToken: stop.Token);
        using FilePieces pieces = new(source.Progress);
        await using TwoWayCall<NegotiateRequest, NegotiateResponse> dialogue = new(call, source, pieces, stop)
        {
            OfData = data => new NegotiateRequest { Data = data },
            OfEnd = new NegotiateRequest(),
            NeedIn = static _ => null,
        };
        NegotiationReport? report = null;
        await dialogue.RunAsync(new NegotiateRequest { Options = options }, response =>
        {
            report = response.Report ?? report;
            return ValueTask.CompletedTask;
        });
        return report ?? throw new CommandFailure("the service ended without an answer.");
    }
}
