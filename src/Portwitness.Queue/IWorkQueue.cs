namespace Portwitness.Queue;

/// <summary>
/// Carries keys of work, at least once each, to whoever takes them; what is to be done lies in the store. It may give a key twice, or one whose
/// work is done: the store tells.
/// </summary>
public interface IWorkQueue : IAsyncDisposable
{
    /// <summary>Where it is, in words that hold no secret.</summary>
    string Place { get; }

    /// <summary>
    /// Adds a key. When this returns, the queue has it as safely as it can. A key that waits or is being worked on is not added again, so that
    /// the queue holds no more than the store does, however often its keys are added.
    /// </summary>
    /// <param name="key">1 to 128 letters and digits.</param>
    /// <param name="cancellation">Stops it.</param>
    /// <returns>Whether the queue did not hold it before.</returns>
    /// <exception cref="QueueException">It could not be added.</exception>
    Task<bool> AddAsync(string key, CancellationToken cancellation);

    /// <summary>Waits for the next key; a queue that is away is waited for, too.</summary>
    /// <exception cref="OperationCanceledException">It was stopped.</exception>
    Task<WorkItem> TakeAsync(CancellationToken cancellation);

    /// <summary>How many keys wait or are being worked on.</summary>
    /// <exception cref="QueueException">The queue could not be asked.</exception>
    Task<long> CountWaitingAsync(CancellationToken cancellation);
}
