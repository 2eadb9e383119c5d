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
            do
            {
                await SweepAsync(age, stoppingToken);
                age = settings.Sweep;
            }
            while (await timer.WaitForNextTickAsync(stoppingToken));
        }
        catch (OperationCanceledException)
        {
        }
    }

    private async Task SweepAsync(TimeSpan age, CancellationToken cancellation)
    {
        try
        {
            Volatile.Write(ref _waiting, await store.Submissions.CountAsync(SubmissionState.Queued, cancellation));
            Volatile.Write(ref _parked, await store.Submissions.CountAsync(SubmissionState.Parked, cancellation));
            if (Volatile.Read(ref _waiting) > 0 && await queue.CountWaitingAsync(cancellation) == 0)
            {
                await AddAllAsync(DateTimeOffset.UtcNow - age, cancellation);
            }

            await store.Uploads.PruneAsync(DateTimeOffset.UtcNow - CompleteUploads, DateTimeOffset.UtcNow - PartialUploads, cancellation);
        }
        catch (Exception exception) when (exception is StoreException or QueueException)
        {
            Log.WorkDelayed(logger, LogText.Of(exception.Message));
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
                await queue.AddAsync(key, cancellation);
                added++;
            }
        }

        if (added > 0)
        {
            Log.Requeued(logger, added);
        }
    }
}
