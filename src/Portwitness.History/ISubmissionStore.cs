using Portwitness.Contracts.V1;

namespace Portwitness.History;

/// <summary>Keeps what was submitted until its report is kept. All of it is on disk when a call returns.</summary>
public interface ISubmissionStore
{
    /// <summary>
    /// Keeps a submission as queued. One that is known already stays as it is, unless nothing can come of it any more
    /// (<see cref="IsLostAsync"/>): then it begins anew.
    /// </summary>
    /// <param name="key">What makes it the same, 1 to 128 characters.</param>
    /// <param name="request">All that the work needs but what was uploaded.</param>
    /// <param name="cancellation">Stops it.</param>
    /// <returns>The submission as it is now.</returns>
    /// <exception cref="StoreException">It could not be kept.</exception>
    Task<Submission> AddAsync(string key, SubmitRequest request, CancellationToken cancellation);

    /// <summary>
    /// Whether nothing can come of a submission any more: it is done and its report was deleted since, or it was set aside because what was
    /// submitted could not be read.
    /// </summary>
    /// <exception cref="StoreException">The store could not be read.</exception>
    Task<bool> IsLostAsync(string key, CancellationToken cancellation);

    /// <summary>One of them; null when there is none of that key.</summary>
    /// <exception cref="StoreException">The store could not be read.</exception>
    Task<Submission?> FindAsync(string key, CancellationToken cancellation);

    /// <summary>Those of a state, or all, the newest first.</summary>
    /// <param name="state">Unspecified fits all.</param>
    /// <param name="before">Only those before this number, which is that of the last one of the page before.</param>
    /// <param name="most">At most so many.</param>
    /// <param name="cancellation">Stops it.</param>
    /// <exception cref="StoreException">The store could not be read.</exception>
    Task<IReadOnlyList<(long Number, Submission Submission)>> ListAsync(SubmissionState state, long? before, int most, CancellationToken cancellation);

    /// <summary>Begins the work on one that is queued, and counts the try.</summary>
    /// <returns>What to do, and which try this is; null when it is not queued (any more).</returns>
    /// <exception cref="StoreException">The store could not be written, or what was submitted is damaged.</exception>
    Task<(SubmitRequest Request, int Try)?> BeginAsync(string key, CancellationToken cancellation);

    /// <summary>Takes a try back that the node broke off itself.</summary>
    /// <exception cref="StoreException">The store could not be written.</exception>
    Task ReleaseAsync(string key, CancellationToken cancellation);

    /// <summary>Its report is kept; what was submitted is not needed any more.</summary>
    /// <exception cref="StoreException">The store could not be written.</exception>
    Task FinishAsync(string key, long reportId, CancellationToken cancellation);

    /// <summary>A try failed.</summary>
    /// <param name="key">Which.</param>
    /// <param name="problem">Why.</param>
    /// <param name="isLast">Whether it is given up.</param>
    /// <param name="cancellation">Stops it.</param>
    /// <exception cref="StoreException">The store could not be written.</exception>
    Task FailAsync(string key, string problem, bool isLast, CancellationToken cancellation);

    /// <summary>Gives up one that is queued because what was submitted cannot be read, and drops that: only sending it again helps.</summary>
    /// <exception cref="StoreException">The store could not be written.</exception>
    Task LoseAsync(string key, string problem, CancellationToken cancellation);

    /// <summary>Queues one that was given up, as if it had never been tried; one that was lost stays given up.</summary>
    /// <returns>Whether it was given up.</returns>
    /// <exception cref="StoreException">The store could not be written.</exception>
    Task<bool> RetryAsync(string key, CancellationToken cancellation);

    /// <summary>Keys of queued ones that nothing has happened to since a time, by number.</summary>
    /// <param name="unchangedSince">That time.</param>
    /// <param name="after">Only those after this number.</param>
    /// <param name="most">At most so many.</param>
    /// <param name="cancellation">Stops it.</param>
    /// <exception cref="StoreException">The store could not be read.</exception>
    Task<IReadOnlyList<(long Number, string Key)>> ListQueuedAsync(DateTimeOffset unchangedSince, long after, int most, CancellationToken cancellation);

    /// <summary>How many are in a state.</summary>
    /// <exception cref="StoreException">The store could not be read.</exception>
    Task<long> CountAsync(SubmissionState state, CancellationToken cancellation);
}
