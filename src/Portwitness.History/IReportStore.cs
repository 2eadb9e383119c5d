using Portwitness.Contracts.V1;

namespace Portwitness.History;

/// <summary>Keeps reports. The same input is one entry, however often, and by however many processes at once, it is kept.</summary>
public interface IReportStore : IAsyncDisposable
{
    /// <summary>Where it is, in words that hold no secret.</summary>
    string Place { get; }

    /// <summary>Who may use a service that keeps its reports here.</summary>
    ITokenStore Tokens { get; }

    /// <summary>What was submitted to be judged by whichever node has time.</summary>
    ISubmissionStore Submissions { get; }

    /// <summary>What was uploaded for that.</summary>
    IUploadStore Uploads { get; }

    /// <summary>Keeps a report in one transaction. Of an input that is kept already only the time of the last sight changes.</summary>
    /// <param name="key">What makes the input the same, 1 to 128 characters.</param>
    /// <param name="report">The report.</param>
    /// <param name="cancellation">Stops it.</param>
    /// <returns>The entry's number.</returns>
    /// <exception cref="StoreException">It could not be kept.</exception>
    Task<long> SaveAsync(string key, ProductReport report, CancellationToken cancellation);

    /// <summary>Entries that fit, the newest first.</summary>
    /// <exception cref="StoreException">The store could not be read.</exception>
    Task<IReadOnlyList<StoredReport>> ListAsync(ReportQuery query, CancellationToken cancellation);

    /// <summary>One report; null when there is none of that number.</summary>
    /// <exception cref="StoreException">The store could not be read.</exception>
    Task<ProductReport?> FindAsync(long id, CancellationToken cancellation);

    /// <summary>How much <see cref="PruneAsync"/> would delete now.</summary>
    /// <exception cref="StoreException">The store could not be read.</exception>
    Task<PrunedRows> CountPrunableAsync(PruneQuery query, CancellationToken cancellation);

    /// <summary>
    /// Deletes old reports with their submissions, submissions that were set aside as long ago, and what earlier deletions by hand have left behind,
    /// in small transactions. When it is stopped, what was deleted by then is deleted.
    /// </summary>
    /// <exception cref="StoreException">The store could not be written.</exception>
    Task<PrunedRows> PruneAsync(PruneQuery query, CancellationToken cancellation);
}
