using System.Collections.Concurrent;
using Grpc.Core;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;
using Portwitness.History;
using Portwitness.Product;
using Portwitness.Queue;
using Portwitness.Service.Calls;
using Portwitness.Service.Submitting;
using Portwitness.Service.Telemetry;
using Portwitness.Service.Validation;
using Wire = Portwitness.Contracts.V1;

namespace Portwitness.Service.Working;

/// <summary>
/// Works on what was submitted, here or at another node. The queue may give a product twice; its report is kept once, as the same input is one
/// entry of the store. A product is done when its report is kept, and only then is it taken out of the queue; when the store fails, its key goes
/// back for a while.
/// </summary>
public sealed class Worker(
    IReportStore store, IWorkQueue queue, WorkSettings settings, ServiceLimits limits, ServiceMetrics metrics, ILogger<Worker> logger) : BackgroundService
{
    private static readonly TimeSpan Heartbeat = TimeSpan.FromSeconds(8);
    private static readonly TimeSpan TimeToGiveBack = TimeSpan.FromSeconds(5);

    // Tries of keys in the queue that were counted and could not be taken back, as the store could not be written.
    private readonly ConcurrentDictionary<string, int> _unreturned = new();

    // Ends work that has begun; what merely waits ends with the token of the host.
    private readonly CancellationTokenSource _breakOff = new();

    /// <inheritdoc/>
    public override async Task StopAsync(CancellationToken cancellationToken)
    {
        _breakOff.CancelAfter(settings.Drain);
        await base.StopAsync(CancellationToken.None);
    }

    /// <inheritdoc/>
    public override void Dispose()
    {
        _breakOff.Dispose();
        base.Dispose();
    }

    /// <inheritdoc/>
    protected override Task ExecuteAsync(CancellationToken stoppingToken) =>
        Task.WhenAll(Enumerable.Range(0, settings.AtOnce).Select(_ => Task.Run(() => LoopAsync(stoppingToken), CancellationToken.None)));

    private async Task LoopAsync(CancellationToken stopping)
    {
        while (!stopping.IsCancellationRequested)
        {
            try
            {
                await WorkAsync(await queue.TakeAsync(stopping));
            }
            catch (OperationCanceledException) when (stopping.IsCancellationRequested)
            {
                return;
            }
            catch (Exception exception)
            {
                // The queue; what is wrong with one product has been dealt with.
                Log.WorkDelayed(logger, LogText.Of(exception.Message));
                await Task.Delay(settings.StorePause, stopping).ContinueWith(static _ => { }, CancellationToken.None, TaskContinuationOptions.None, TaskScheduler.Default);
            }
        }
    }

    // Whatever goes wrong with a product, its key is done or goes back into the queue: no other product waits for it.
    private async Task WorkAsync(WorkItem item)
    {
        try
        {
            await BeginAsync(item);
        }
        catch (OperationCanceledException) when (_breakOff.IsCancellationRequested)
        {
            await GiveBackAsync(item, TimeSpan.Zero);
        }
        catch (Exception exception)
        {
            Log.WorkDelayed(logger, LogText.Of(exception.Message));
            await GiveBackAsync(item, settings.PauseBeforeDelivery(item.Delivery + 1));
        }
    }

    private async Task BeginAsync(WorkItem item)
    {
        (Wire.SubmitRequest Request, int Try)? found;
        try
        {
            found = await store.Submissions.BeginAsync(item.Key, _breakOff.Token);
        }
        catch (StoreException exception) when (exception.IsDamaged)
        {
            await LoseAsync(item, exception.Message);
            return;
        }

        if (found is not { } begun)
        {
            // Done already: the queue gave it twice.
            await DoneAsync(item);
            return;
        }

        using CancellationTokenSource stop = CancellationTokenSource.CreateLinkedTokenSource(_breakOff.Token);
        Task alive = StayAliveAsync(item, stop.Token);
        try
        {
            // Tries that the store could not take back do not count.
            await TryAsync(item, begun.Request, begun.Try - _unreturned.GetValueOrDefault(item.Key));
        }
        finally
        {
            await stop.CancelAsync();
            await alive;
        }
    }

    private async Task TryAsync(WorkItem item, Wire.SubmitRequest request, int number)
    {
        if (number > settings.Tries)
        {
            await ParkAsync(item, number - 1, "The process that worked on it ended each time.");
            return;
        }

        try
        {
            await JudgeAsync(item, request, number);
        }
        catch
        {
            // The store or the queue failed, or the node is stopped.
            await ReleaseAsync(item);
            throw;
        }
    }

    private async Task JudgeAsync(WorkItem item, Wire.SubmitRequest request, int number)
    {
        using CancellationTokenSource stop = CancellationTokenSource.CreateLinkedTokenSource(_breakOff.Token);
        stop.CancelAfter(settings.Time);
        try
        {
            long report = await KeepAsync(request, await CheckAsync(request, stop.Token));
            await PersistAsync(() => store.Submissions.FinishAsync(item.Key, report, _breakOff.Token));
            await DoneAsync(item);
        }
        catch (Exception exception) when (exception is not (StoreException or QueueException) && !_breakOff.IsCancellationRequested)
        {
            await FailAsync(item, number, exception);
        }
    }

    private async Task FailAsync(WorkItem item, int number, Exception exception)
    {
        string problem = exception switch
        {
            OperationCanceledException => $"It took longer than {settings.Time.TotalSeconds:0} s.",
            RpcException refused => refused.Status.Detail,
            _ => $"A fault in Portwitness itself ({exception.GetType().Name}).",
        };
        Log.WorkFailed(logger, number, exception.GetType().Name, LogText.Of(exception.Message), LogText.Stack(exception));
        if (number >= settings.Tries)
        {
            await ParkAsync(item, number, problem);
            return;
        }

        await store.Submissions.FailAsync(item.Key, problem, isLast: false, _breakOff.Token);
        await item.AgainAsync(settings.Pause * Math.Pow(2, number - 1), _breakOff.Token);
    }

    private async Task<Wire.ProductReport> CheckAsync(Wire.SubmitRequest request, CancellationToken cancellation)
    {
        // Kept reports can be drawn later.
        request.Options.Plots = true;
        using WatchedCall call = metrics.Begin("Work", []);
        (Wire.ProductReport report, ProductAnalysis _) = await SubmittedCheck.RunAsync(request, limits, call, null, store.Uploads, cancellation);
        call.Status = StatusCode.OK;
        return report;
    }

    private async Task<long> KeepAsync(Wire.SubmitRequest request, Wire.ProductReport report)
    {
        long id = 0;
        await PersistAsync(async () => id = await store.SaveAsync(InputKey.Of(request.Options, report), report, _breakOff.Token));
        return id;
    }

    // A database that restarts is no fault of the product: what was worked out is held until it can be kept.
    private async Task PersistAsync(Func<Task> persist)
    {
        for (int attempt = 1; ; attempt++)
        {
            try
            {
                await persist();
                return;
            }
            catch (StoreException exception) when (exception.IsUnreachable)
            {
                Log.WorkDelayed(logger, LogText.Of(exception.Message));
                await Task.Delay(settings.PauseBeforeDelivery(attempt + 1), _breakOff.Token);
            }
        }
    }

    private async Task ParkAsync(WorkItem item, int tries, string problem)
    {
        await PersistAsync(() => store.Submissions.FailAsync(item.Key, problem, isLast: true, _breakOff.Token));
        Log.WorkParked(logger, item.Key, tries, LogText.Of(problem));
        await DoneAsync(item);
    }

    private async Task LoseAsync(WorkItem item, string problem)
    {
        await PersistAsync(() => store.Submissions.LoseAsync(item.Key, problem, _breakOff.Token));
        Log.WorkParked(logger, item.Key, 0, LogText.Of(problem));
        await DoneAsync(item);
    }

    private Task DoneAsync(WorkItem item)
    {
        _unreturned.TryRemove(item.Key, out _);
        return item.DoneAsync(_breakOff.Token);
    }

    // This try does not count.
    private async Task ReleaseAsync(WorkItem item)
    {
        using CancellationTokenSource patience = new(TimeToGiveBack);
        try
        {
            await store.Submissions.ReleaseAsync(item.Key, patience.Token);
        }
        catch (Exception exception) when (exception is StoreException or OperationCanceledException)
        {
            _unreturned.AddOrUpdate(item.Key, 1, static (_, tries) => tries + 1);
            Log.WorkDelayed(logger, LogText.Of(exception.Message));
        }
    }

    private async Task GiveBackAsync(WorkItem item, TimeSpan pause)
    {
        using CancellationTokenSource patience = new(TimeToGiveBack);
        try
        {
            await item.AgainAsync(pause, patience.Token);
        }
        catch (Exception exception) when (exception is QueueException or OperationCanceledException)
        {
            // A queue that cannot be told gives it again in its own time.
            Log.WorkDelayed(logger, LogText.Of(exception.Message));
        }
    }

    private static async Task StayAliveAsync(WorkItem item, CancellationToken stop)
    {
        using PeriodicTimer timer = new(Heartbeat);
        try
        {
            while (await timer.WaitForNextTickAsync(stop))
            {
                await item.StillWorkingAsync(stop);
            }
        }
        catch (Exception exception) when (exception is OperationCanceledException or QueueException)
        {
            // Without it the queue gives the product to another node, too; its report is kept once all the same.
        }
    }
}
