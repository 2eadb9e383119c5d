using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;
using Portwitness.Contracts.V1;
using Portwitness.History;
using Portwitness.Queue;
using Portwitness.Service.Telemetry;

namespace Portwitness.Service.Working;

/// <summary>
/// Puts back into the queue what the store has and the queue has not: after a restart with a queue in memory, a broker that lost its disk, or a
/// process that was killed between the two. It drops uploads that nobody needs, and counts what waits.
/// </summary>
public sealed class Sweeper(IReportStore store, IWorkQueue queue, WorkSettings settings, ServiceMetrics metrics, ILogger<Sweeper> logger) : BackgroundService
{
    private const int PageSize = 1000;
    private const int ThoroughEvery = 20;
    private const int PrunedEvery = 240;

    // Uploads come before the submission that names them.
    private static readonly TimeSpan CompleteUploads = TimeSpan.FromHours(1);
    private static readonly TimeSpan PartialUploads = TimeSpan.FromDays(1);

    private long _waiting;
    private long _parked;

    /// <inheritdoc/>
    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        metrics.QueueDepth = () => Volatile.Read(ref _waiting);
        metrics.QueueParked = () => Volatile.Read(ref _parked);

        // What a queue in memory held is gone with the process before; a shared one may be about to be given what was just kept.
        TimeSpan age = queue is InProcessQueue ? TimeSpan.Zero : settings.Sweep;
        using PeriodicTimer timer = new(settings.Sweep);
        try
        {
            for (int sweep = 0; ; sweep++)
            {
                await SweepAsync(age, sweep % ThoroughEvery == 0, stoppingToken);
                if (settings.Retain is { } longest && sweep % PrunedEvery == 0)
                {
                    await TryAsync(() => PruneAsync(DateTimeOffset.UtcNow - longest, stoppingToken), stoppingToken);
                }

                age = settings.Sweep;
                await timer.WaitForNextTickAsync(stoppingToken);
            }
        }
        catch (OperationCanceledException)
        {
        }
    }

    // One that fails keeps none of the others from being done, nor the next sweep.
    private async Task SweepAsync(TimeSpan age, bool isThorough, CancellationToken cancellation)
    {
        await TryAsync(() => CountAsync(cancellation), cancellation);
        await TryAsync(() => RequeueAsync(DateTimeOffset.UtcNow - age, isThorough, cancellation), cancellation);
        await TryAsync(
            () => store.Uploads.PruneAsync(DateTimeOffset.UtcNow - CompleteUploads, DateTimeOffset.UtcNow - PartialUploads, cancellation), cancellation);
    }

    private async Task TryAsync(Func<Task> run, CancellationToken cancellation)
    {
        try
        {
            await run();
        }
        catch (Exception exception) when (!cancellation.IsCancellationRequested)
        {
            Log.WorkDelayed(logger, LogText.Of(exception.Message));
        }
    }

    private async Task CountAsync(CancellationToken cancellation)
    {
        Volatile.Write(ref _waiting, await store.Submissions.CountAsync(SubmissionState.Queued, cancellation));
        Volatile.Write(ref _parked, await store.Submissions.CountAsync(SubmissionState.Parked, cancellation));
    }

    // A queue takes each key once, so that adding all is safe at any time. It is done when the queue holds fewer keys than it should, and now and
    // then anyway, as what else is in it hides what is missing.
    private async Task RequeueAsync(DateTimeOffset unchangedSince, bool isThorough, CancellationToken cancellation)
    {
        if (isThorough || await store.Submissions.CountAsync(SubmissionState.Queued, cancellation) > await queue.CountWaitingAsync(cancellation))
        {
            await AddAllAsync(unchangedSince, cancellation);
        }
    }

    private async Task PruneAsync(DateTimeOffset before, CancellationToken cancellation)
    {
        PrunedRows pruned = await store.PruneAsync(new PruneQuery { Before = before }, cancellation);
        if (pruned != new PrunedRows(0, 0))
        {
            Log.Pruned(logger, pruned.Reports, pruned.Submissions);
        }
    }

    private async Task AddAllAsync(DateTimeOffset unchangedSince, CancellationToken cancellation)
    {
        int added = 0;
        IReadOnlyList<(long Number, string Key)> page;
        for (long after = 0; (page = await store.Submissions.ListQueuedAsync(unchangedSince, after, PageSize, cancellation)).Count > 0; after = page[^1].Number)
        {
            foreach ((_, string key) in page)
            {
                added += await queue.AddAsync(key, cancellation) ? 1 : 0;
            }
        }

        if (added > 0)
        {
            Log.Requeued(logger, added);
        }
    }
}
