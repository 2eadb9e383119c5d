namespace Portwitness.Queue;

/// <summary>A key that was taken. Unless it is said to be done it comes again: after a while, or when the queue starts anew.</summary>
public abstract class WorkItem
{
    /// <summary>The key.</summary>
    public abstract string Key { get; }

    /// <summary>How often the queue has given it out, 1 the first time.</summary>
    public abstract long Delivery { get; }

    /// <summary>The work is done.</summary>
    /// <exception cref="QueueException">The queue could not be told; the key may come again.</exception>
    public abstract Task DoneAsync(CancellationToken cancellation);

    /// <summary>Gives the key back; it comes again after a pause.</summary>
    /// <exception cref="QueueException">The queue could not be told; the key comes again in its own time.</exception>
    public abstract Task AgainAsync(TimeSpan pause, CancellationToken cancellation);

    /// <summary>Says that the work goes on, so that nobody else is given the key.</summary>
    /// <exception cref="QueueException">The queue could not be told.</exception>
    public abstract Task StillWorkingAsync(CancellationToken cancellation);
}
