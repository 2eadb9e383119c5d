using System.Threading.Channels;
using Google.Rpc;
using Grpc.Core;
using Portwitness.History;
using Portwitness.Service.Calls;
using Portwitness.Service.Telemetry;
using Portwitness.Service.Validation;
using Wire = Portwitness.Contracts.V1;

namespace Portwitness.Service.Submitting;

/// <summary>One CheckMany call. As many products as there are processors are checked at once; the next is read when one of them is answered.</summary>
internal sealed class CheckManyCall(
    ServiceLimits limits, WatchedCall call, IReportStore? store, IAsyncStreamReader<Wire.CheckManyRequest> requests,
    IServerStreamWriter<Wire.CheckManyResponse> responses, CancellationToken cancellation)
{
    /// <summary>Checks all.</summary>
    /// <returns>How many were judged, and how many were not.</returns>
    public async Task<(int Judged, int Refused)> RunAsync()
    {
        int atOnce = Environment.ProcessorCount;
        (int judged, int refused) = (0, 0);
        Channel<Wire.CheckManyResponse> done = Channel.CreateBounded<Wire.CheckManyResponse>(1);
        using CancellationTokenSource stop = CancellationTokenSource.CreateLinkedTokenSource(cancellation);
        using SemaphoreSlim room = new(atOnce);
        Task reading = ReadAsync(done.Writer, room, atOnce, stop.Token);
        try
        {
            await foreach (Wire.CheckManyResponse response in done.Reader.ReadAllAsync(cancellation))
            {
                _ = response.OutcomeCase == Wire.CheckManyResponse.OutcomeOneofCase.Report ? judged++ : refused++;

                // Who takes no answers is asked for no more products.
                await responses.WriteAsync(response, cancellation);
                room.Release();
            }
        }
        finally
        {
            await stop.CancelAsync();
            await reading.ContinueWith(static _ => { }, CancellationToken.None, TaskContinuationOptions.None, TaskScheduler.Default);
        }

        await reading;
        return (judged, refused);
    }

    private async Task ReadAsync(ChannelWriter<Wire.CheckManyResponse> done, SemaphoreSlim room, int atOnce, CancellationToken stop)
    {
        List<Task> working = [];
        Exception? failure = null;
        try
        {
            while (await WaitAsync(room, stop) && await requests.MoveNext(stop))
            {
                Wire.CheckManyRequest request = requests.Current;
                working.RemoveAll(static task => task.IsCompletedSuccessfully);
                working.Add(Task.Run(async () => await done.WriteAsync(await CheckAsync(request, stop), stop), stop));
            }
        }
        catch (Exception exception)
        {
            failure = exception;
            throw;
        }
        finally
        {
            Exception? broken = await Task.WhenAll(working).ContinueWith(
                static all => all.Exception?.InnerException, CancellationToken.None, TaskContinuationOptions.None, TaskScheduler.Default);
            done.TryComplete(failure ?? broken);
        }
    }

    private static async Task<bool> WaitAsync(SemaphoreSlim room, CancellationToken stop)
    {
        await room.WaitAsync(stop);
        return true;
    }

    private async Task<Wire.CheckManyResponse> CheckAsync(Wire.CheckManyRequest request, CancellationToken stop)
    {
        Wire.CheckManyResponse response = new();
        try
        {
            InvalidRequest invalid = new();
            invalid.CheckName("id", request.Id, limits);
            invalid.ThrowIfAny();
            response.Id = request.Id;
            SubmittedProduct product = SubmittedProduct.Read(request.Product ?? new Wire.SubmitRequest(), "product.", limits);
            response.Report = product.WantedFiles.Count > 0
                ? throw InvalidRequest.Because("product.files", SubmissionCalls.WantedText(product.WantedFiles))
                : (await SubmittedCheck.RunAsync(request.Product!, limits, call, store, store?.Uploads, stop)).Report;
        }
        catch (RpcException exception) when (exception.StatusCode != StatusCode.Cancelled)
        {
            response.Error = ErrorOf(exception);
        }
        catch (StoreException exception)
        {
            response.Error = ErrorOf(StoreCalls.RefusalOf(exception));
        }
        catch (Exception exception) when (exception is not (RpcException or OperationCanceledException))
        {
            response.Error = new Google.Rpc.Status
            {
                Code = (int)Code.Internal, Message = $"A fault in Portwitness itself ({exception.GetType().Name}). The product was not judged.",
            };
        }

        return response;
    }

    private static Google.Rpc.Status ErrorOf(RpcException exception) =>
        exception.GetRpcStatus() ?? new Google.Rpc.Status { Code = (int)exception.StatusCode, Message = exception.Status.Detail };
}
