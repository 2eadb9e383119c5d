using System.Threading.Channels;

namespace Portwitness.Queue;

/// <summary>
/// A queue in memory, for one process. It ends with the process: whoever starts it adds what the store has as queued.
/// </summary>
public sealed class InProcessQueue : IWorkQueue
{
    private readonly Channel<string> _waiting = Channel.CreateUnbounded<string>();
    private readonly Lock _gate = new();
    private readonly Dictionary<string, long> _deliveries = [];
    private readonly CancellationTokenSource _end = new();

    /// <inheritdoc/>
    public string Place => "this process";

    /// <inheritdoc/>
    public Task<bool> AddAsync(string key, CancellationToken cancellation)
    {
        ArgumentException.ThrowIfNullOrEmpty(key);
        cancellation.ThrowIfCancellationRequested();
        lock (_gate)
        {
            return Task.FromResult(_deliveries.TryAdd(key, 0) && _waiting.Writer.TryWrite(key));
        }
    }

    /// <inheritdoc/>
    public async Task<WorkItem> TakeAsync(CancellationToken cancellation)
    {
        string key = await _waiting.Reader.ReadAsync(cancellation);
        lock (_gate)
        {
            return new Item(this, key, ++_deliveries[key]);
        }
    }

    /// <inheritdoc/>
    public Task<long> CountWaitingAsync(CancellationToken cancellation)
    {
        lock (_gate)
        {
            return Task.FromResult((long)_deliveries.Count);
        }
    }

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        await _end.CancelAsync();
        _end.Dispose();
    }

    private void Forget(string key)
    {
        lock (_gate)
        {
            _deliveries.Remove(key);
        }
    }

    private sealed class Item(InProcessQueue queue, string key, long delivery) : WorkItem
    {
        public override string Key => key;

        public override long Delivery => delivery;

        public override Task DoneAsync(CancellationToken cancellation)
        {
            queue.Forget(key);
            return Task.CompletedTask;
        }

        public override Task AgainAsync(TimeSpan pause, CancellationToken cancellation)
        {
            // The work goes on elsewhere meanwhile; a queue that ends drops what pauses.
            _ = Task.Delay(pause, queue._end.Token).ContinueWith(
                waited => waited.IsCompletedSuccessfully && queue._waiting.Writer.TryWrite(key),
                CancellationToken.None, TaskContinuationOptions.None, TaskScheduler.Default);
            return Task.CompletedTask;
        }

        public override Task StillWorkingAsync(CancellationToken cancellation) => Task.CompletedTask;
    }
}
