using System.Data.Common;
using System.Globalization;
using Google.Protobuf;
using Portwitness.Contracts.V1;
using static Portwitness.History.SqlDatabase;

namespace Portwitness.History;

/// <summary>Submissions in rows.</summary>
internal sealed class SqlSubmissionStore(SqlDatabase database) : ISubmissionStore
{
    private const string Columns = "number, key, state, name, tries, problem, report_id, created_us, changed_us";
    private const string Select = $"SELECT {Columns} FROM submissions";
    private const string Queued = nameof(SubmissionState.Queued);
    private const string Parked = nameof(SubmissionState.Parked);
    private const int LongestProblem = 2000;

    private const string Lost =
        $"""
        ((submissions.state = '{nameof(SubmissionState.Done)}' AND NOT EXISTS (SELECT 1 FROM reports WHERE id = submissions.report_id))
        OR (submissions.state = '{Parked}' AND LENGTH(submissions.request) = 0))
        """;

    private const string Insert =
        $"""
        INSERT INTO submissions (key, state, name, tries, problem, report_id, created_us, changed_us, request)
        VALUES (@key, '{Queued}', @name, 0, '', 0, @now, @now, @request) ON CONFLICT (key) DO UPDATE
        SET state = '{Queued}', name = @name, tries = 0, problem = '', report_id = 0, created_us = @now, changed_us = @now, request = @request WHERE {Lost}
        RETURNING number
        """;

    private const string DropUploads = "DELETE FROM submission_uploads WHERE submission_number = (SELECT number FROM submissions WHERE key = @key)";

    private const string Begin =
        $"UPDATE submissions SET tries = tries + 1, changed_us = @now WHERE key = @key AND state = '{Queued}' RETURNING tries, request";

    /// <inheritdoc/>
    public Task<Submission> AddAsync(string key, SubmitRequest request, CancellationToken cancellation)
    {
        ArgumentException.ThrowIfNullOrEmpty(key);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(key.Length, 128);
        return database.WriteAsync(async connection =>
        {
            string name = request.Options.Product?.File ?? request.Options.Capture?.File ?? "";
            object? number = await ScalarAsync(
                connection, Insert, cancellation, ("key", key), ("name", Text(name)), ("now", Now), ("request", request.ToByteArray()));
            if (number is not null)
            {
                foreach (string hash in request.Files.Where(static file => file.HasSha256).Select(static file => file.Sha256).Distinct())
                {
                    await ExecuteAsync(
                        connection, "INSERT INTO submission_uploads (submission_number, sha256) VALUES (@number, @hash) ON CONFLICT DO NOTHING", cancellation,
                        ("number", number), ("hash", hash));
                }
            }

            return (await RowsAsync(connection, Select + " WHERE key = @key", Read, cancellation, ("key", key)))[0].Submission;
        }, cancellation);
    }

    /// <inheritdoc/>
    public Task<bool> IsLostAsync(string key, CancellationToken cancellation) => database.RunAsync(
        async connection => await ScalarAsync(connection, $"SELECT 1 FROM submissions WHERE key = @key AND {Lost}", cancellation, ("key", Text(key))) is not null,
        cancellation);

    /// <inheritdoc/>
    public async Task<Submission?> FindAsync(string key, CancellationToken cancellation) =>
        (await database.RunAsync(connection => RowsAsync(connection, Select + " WHERE key = @key", Read, cancellation, ("key", Text(key))), cancellation))
        .Select(static row => row.Submission).FirstOrDefault();

    /// <inheritdoc/>
    public Task<IReadOnlyList<(long Number, Submission Submission)>> ListAsync(
        SubmissionState state, long? before, int most, CancellationToken cancellation) => database.RunAsync(
            connection => RowsAsync(
                connection, $"{Select} WHERE number < @before AND {(state == SubmissionState.Unspecified ? "@state = @state" : "state = @state")} ORDER BY number DESC LIMIT @most",
                Read, cancellation, ("before", before ?? long.MaxValue), ("state", state.ToString()), ("most", most)),
            cancellation);

    /// <inheritdoc/>
    public async Task<(SubmitRequest Request, int Try)?> BeginAsync(string key, CancellationToken cancellation)
    {
        IReadOnlyList<(byte[] Request, int Try)> begun = await database.WriteAsync(
            connection => RowsAsync(
                connection, Begin, static row => (row.GetFieldValue<byte[]>(1), row.GetInt32(0)), cancellation, ("key", Text(key)), ("now", Now)),
            cancellation);
        try
        {
            return begun.Count == 0 ? null
                : SubmitRequest.Parser.ParseFrom(begun[0].Request) is { Options: not null } request ? (request, begun[0].Try)
                : throw Damaged(null);
        }
        catch (InvalidProtocolBufferException exception)
        {
            throw Damaged(exception);
        }
    }

    /// <inheritdoc/>
    public Task ReleaseAsync(string key, CancellationToken cancellation) =>
        ChangeAsync($"tries = tries - 1 WHERE key = @key AND state = '{Queued}' AND tries > 0", cancellation, ("key", key));

    /// <inheritdoc/>
    public Task FinishAsync(string key, long reportId, CancellationToken cancellation) => database.WriteAsync(async connection =>
    {
        await ExecuteAsync(connection, DropUploads, cancellation, ("key", key));
        return await ExecuteAsync(
            connection,
            $"UPDATE submissions SET state = '{nameof(SubmissionState.Done)}', report_id = @report, problem = '', request = @nothing, changed_us = @now WHERE key = @key",
            cancellation, ("report", reportId), ("nothing", Array.Empty<byte>()), ("now", Now), ("key", key));
    }, cancellation);

    /// <inheritdoc/>
    public Task FailAsync(string key, string problem, bool isLast, CancellationToken cancellation) => ChangeAsync(
        $"problem = @problem, state = '{(isLast ? Parked : Queued)}' WHERE key = @key AND state = '{Queued}'", cancellation,
        ("problem", Text(problem.Length > LongestProblem ? problem[..LongestProblem] : problem)), ("key", key));

    /// <inheritdoc/>
    public Task LoseAsync(string key, string problem, CancellationToken cancellation) => database.WriteAsync(async connection =>
    {
        await ExecuteAsync(connection, DropUploads, cancellation, ("key", Text(key)));
        return await ExecuteAsync(
            connection, $"UPDATE submissions SET problem = @problem, state = '{Parked}', request = @nothing, changed_us = @now WHERE key = @key AND state = '{Queued}'",
            cancellation, ("problem", Text(problem)), ("nothing", Array.Empty<byte>()), ("now", Now), ("key", Text(key)));
    }, cancellation);

    /// <inheritdoc/>
    public async Task<bool> RetryAsync(string key, CancellationToken cancellation) => await ChangeAsync(
        $"state = '{Queued}', tries = 0 WHERE key = @key AND state = '{Parked}' AND LENGTH(request) > 0", cancellation, ("key", Text(key))) > 0;

    /// <inheritdoc/>
    public Task<IReadOnlyList<(long Number, string Key)>> ListQueuedAsync(
        DateTimeOffset unchangedSince, long after, int most, CancellationToken cancellation) => database.RunAsync(
            connection => RowsAsync(
                connection, $"SELECT number, key FROM submissions WHERE state = '{Queued}' AND number > @after AND changed_us <= @since ORDER BY number LIMIT @most",
                static row => (row.GetInt64(0), row.GetString(1)), cancellation, ("after", after), ("since", UnixMicroseconds.Of(unchangedSince)), ("most", most)),
            cancellation);

    /// <inheritdoc/>
    public Task<long> CountAsync(SubmissionState state, CancellationToken cancellation) => database.RunAsync(
        async connection => Convert.ToInt64(
            await ScalarAsync(connection, "SELECT COUNT(*) FROM submissions WHERE state = @state", cancellation, ("state", state.ToString())),
            CultureInfo.InvariantCulture),
        cancellation);

    private StoreException Damaged(Exception? cause) =>
        new($"{database.Place}: what was submitted is damaged there; submit it again.", false, cause) { IsDamaged = true };

    private static long Now => UnixMicroseconds.Of(DateTimeOffset.UtcNow);

    private Task<int> ChangeAsync(string change, CancellationToken cancellation, params (string Name, object Value)[] values) => database.WriteAsync(
        connection => ExecuteAsync(connection, $"UPDATE submissions SET changed_us = @now, {change}", cancellation, [("now", Now), .. values]), cancellation);

    private static (long Number, Submission Submission) Read(DbDataReader row) => (row.GetInt64(0), new Submission
    {
        Key = row.GetString(1), State = Enum.TryParse(row.GetString(2), out SubmissionState state) ? state : default, Name = row.GetString(3),
        Tries = row.GetInt32(4), Problem = row.GetString(5), ReportId = row.GetInt64(6), CreatedUs = row.GetInt64(7), ChangedUs = row.GetInt64(8),
    });
}
