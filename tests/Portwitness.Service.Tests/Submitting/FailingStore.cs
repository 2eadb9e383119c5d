using Portwitness.Contracts.V1;
using Portwitness.History;

namespace Portwitness.Service.Tests.Submitting;

/// <summary>A store in which what a test names fails so many times, as on a disk that is full for a while.</summary>
internal sealed class FailingStore(IReportStore inner) : IReportStore, ISubmissionStore
{
    private readonly Dictionary<string, int> _failures = [];

    /// <summary>How failures are told.</summary>
    public Func<Exception> Failure { get; set; } = static () => new StoreException("reports.db: the disk is full.", isUnreachable: false);

    public string Place => inner.Place;

    public ITokenStore Tokens => inner.Tokens;

    public ISubmissionStore Submissions => this;

    public IUploadStore Uploads => inner.Uploads;

    /// <summary>From now on a method fails so many times.</summary>
    public void Fail(string method, int times)
    {
        lock (_failures)
        {
            _failures[method] = times;
        }
    }

    /// <summary>How many of these failures are still to come.</summary>
    public int Left(string method)
    {
        lock (_failures)
        {
            return _failures.GetValueOrDefault(method);
        }
    }

    public Task<long> SaveAsync(string key, ProductReport report, CancellationToken cancellation)
    {
        MayFail(nameof(SaveAsync));
        return inner.SaveAsync(key, report, cancellation);
    }

    public Task<IReadOnlyList<History.StoredReport>> ListAsync(ReportQuery query, CancellationToken cancellation) => inner.ListAsync(query, cancellation);

    public Task<ProductReport?> FindAsync(long id, CancellationToken cancellation) => inner.FindAsync(id, cancellation);

    public Task<PrunedRows> CountPrunableAsync(PruneQuery query, CancellationToken cancellation) => inner.CountPrunableAsync(query, cancellation);

    public Task<PrunedRows> PruneAsync(PruneQuery query, CancellationToken cancellation) => inner.PruneAsync(query, cancellation);

    public Task<Submission> AddAsync(string key, SubmitRequest request, CancellationToken cancellation) => inner.Submissions.AddAsync(key, request, cancellation);

    public Task<bool> IsLostAsync(string key, CancellationToken cancellation) => inner.Submissions.IsLostAsync(key, cancellation);

    public Task<Submission?> FindAsync(string key, CancellationToken cancellation) => inner.Submissions.FindAsync(key, cancellation);

    public Task<IReadOnlyList<(long Number, Submission Submission)>> ListAsync(SubmissionState state, long? before, int most, CancellationToken cancellation) =>
        inner.Submissions.ListAsync(state, before, most, cancellation);

    public Task<(SubmitRequest Request, int Try)?> BeginAsync(string key, CancellationToken cancellation)
    {
        MayFail(nameof(BeginAsync));
        return inner.Submissions.BeginAsync(key, cancellation);
    }

    public Task ReleaseAsync(string key, CancellationToken cancellation)
    {
        MayFail(nameof(ReleaseAsync));
        return inner.Submissions.ReleaseAsync(key, cancellation);
    }

    public Task FinishAsync(string key, long reportId, CancellationToken cancellation)
    {
        MayFail(nameof(FinishAsync));
        return inner.Submissions.FinishAsync(key, reportId, cancellation);
    }

    public Task FailAsync(string key, string problem, bool isLast, CancellationToken cancellation)
    {
        MayFail(nameof(FailAsync));
        return inner.Submissions.FailAsync(key, problem, isLast, cancellation);
    }

    public Task LoseAsync(string key, string problem, CancellationToken cancellation)
    {
        MayFail(nameof(LoseAsync));
        return inner.Submissions.LoseAsync(key, problem, cancellation);
    }

    public Task<bool> RetryAsync(string key, CancellationToken cancellation) => inner.Submissions.RetryAsync(key, cancellation);

    public Task<IReadOnlyList<(long Number, string Key)>> ListQueuedAsync(DateTimeOffset unchangedSince, long after, int most, CancellationToken cancellation)
    {
        MayFail(nameof(ListQueuedAsync));
        return inner.Submissions.ListQueuedAsync(unchangedSince, after, most, cancellation);
    }

    public Task<long> CountAsync(SubmissionState state, CancellationToken cancellation)
    {
        MayFail(nameof(CountAsync));
        return inner.Submissions.CountAsync(state, cancellation);
    }

    public ValueTask DisposeAsync() => inner.DisposeAsync();

    private void MayFail(string method)
    {
        lock (_failures)
        {
            if (_failures.GetValueOrDefault(method) is > 0 and var left)
            {
                _failures[method] = left - 1;
                throw Failure();
            }
        }
    }
}
