using Grpc.Core;
using Portwitness.Cli.Shell;
using Portwitness.Contracts.V1;

namespace Portwitness.Cli.Calls;

/// <summary>Answers the service's requests for files until the report comes.</summary>
internal static class CheckDialogue
{
    /// <param name="client">The service.</param>
    /// <param name="options">The product file or the capture.</param>
    /// <param name="open">Opens a file that the service asks for; <see cref="CommandFailure"/> says why it is not given.</param>
    /// <param name="progress">Told how far the reading is.</param>
    /// <param name="cancellation">Stops the call.</param>
    public static async Task<ProductReport> RunAsync(
        Witness.WitnessClient client, CheckOptions options, Func<string, Stream> open, Progress progress,
        CancellationToken cancellation)
    {
        using AsyncDuplexStreamingCall<CheckRequest, CheckResponse> call = client.Check(cancellationToken: cancellation);
        using FilePieces pieces = new(progress);
        await SendAsync(call, new CheckRequest { Options = options }, cancellation);
        while (await call.ResponseStream.MoveNext(cancellation))
        {
            CheckResponse response = call.ResponseStream.Current;
            if (response.PartCase == CheckResponse.PartOneofCase.Report)
            {
                await call.RequestStream.CompleteAsync();
                pieces.Release();
                return response.Report;
            }

            if (response.PartCase == CheckResponse.PartOneofCase.NeedPiece)
            {
                await SendAsync(call, await PieceAsync(pieces, response.NeedPiece, open, cancellation), cancellation);
                continue;
            }

            await GiveAsync(call, response.Need, open, pieces, cancellation);
        }

        throw new CommandFailure("the service ended without an answer.");
    }

    private static async Task<CheckRequest> PieceAsync(
        FilePieces pieces, NeedPiece need, Func<string, Stream> open, CancellationToken cancellation)
    {
        try
        {
            return await pieces.NextAsync(need, open, cancellation) is { } piece
                ? new CheckRequest { Data = piece }
                : new CheckRequest { End = new FileEnd() };
        }
        catch (CommandFailure failure) when (!pieces.IsOpen(need.Input))
        {
            return new CheckRequest { Missing = new FileMissing { Reason = failure.Message } };
        }
    }

    private static async Task GiveAsync(
        AsyncDuplexStreamingCall<CheckRequest, CheckResponse> call, string file, Func<string, Stream> open, FilePieces pieces,
        CancellationToken cancellation)
    {
        Stream stream;
        try
        {
            stream = open(file);
        }
        catch (CommandFailure failure)
        {
            await SendAsync(call, new CheckRequest { Missing = new FileMissing { Reason = failure.Message } }, cancellation);
            return;
        }

        await using (stream)
        {
            await pieces.SendAsync(
                stream, file, piece => SendAsync(call, new CheckRequest { Data = piece }, cancellation), cancellation);
        }

        await SendAsync(call, new CheckRequest { End = new FileEnd() }, cancellation);
    }

    // When the service has ended the call, its answer says why; sending only notices that it has.
    private static async Task SendAsync(
        AsyncDuplexStreamingCall<CheckRequest, CheckResponse> call, CheckRequest request,
        CancellationToken cancellation)
    {
        try
        {
            await call.RequestStream.WriteAsync(request, cancellation);
        }
        catch (Exception exception) when (exception is RpcException or InvalidOperationException)
        {
            while (await call.ResponseStream.MoveNext(cancellation))
            {
            }

            throw;
        }
    }
}
