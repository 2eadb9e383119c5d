using Portwitness.Contracts.V1;
using static Portwitness.History.SqlDatabase;

namespace Portwitness.History;

/// <summary>Deletes what is old, so many rows in each transaction: whoever writes beside it waits for one of these at most.</summary>
internal sealed class SqlPruning(SqlDatabase database)
{
    private const int AtOnce = 200;

    private const string LostSubmissions =
        $"""
        SELECT number FROM submissions WHERE state = '{nameof(SubmissionState.Done)}' AND NOT EXISTS (SELECT 1 FROM reports WHERE id = submissions.report_id)
        ORDER BY number LIMIT @most
        """;

    private const string ParkedSubmissions =
        $"SELECT number FROM submissions WHERE state = '{nameof(SubmissionState.Parked)}' AND changed_us < @before ORDER BY number LIMIT @most";

    private const string LostRules =
        "SELECT DISTINCT report_id FROM report_rules WHERE NOT EXISTS (SELECT 1 FROM reports WHERE id = report_rules.report_id) LIMIT @most";

    /// <summary>What <see cref="DeleteAsync"/> would delete now.</summary>
    public Task<PrunedRows> CountAsync(PruneQuery query, CancellationToken cancellation) => database.RunAsync(async connection =>
    {
        (string where, (string, object)[] values) = QueryText.Of(query);
        long reports = Number(await ScalarAsync(connection, $"SELECT COUNT(*) FROM reports WHERE {where}", cancellation, values));
        long submissions = Number(await ScalarAsync(
            connection,
            $"""
            SELECT COUNT(*) FROM submissions WHERE (state = '{nameof(SubmissionState.Done)}' AND (report_id IN (SELECT id FROM reports WHERE {where})
            OR NOT EXISTS (SELECT 1 FROM reports WHERE id = submissions.report_id)))
            OR ({(query.Product.Length == 0 ? "1 = 1" : "1 = 0")} AND state = '{nameof(SubmissionState.Parked)}' AND changed_us < @before)
            """,
            cancellation, values));
        return new PrunedRows(reports, submissions);
    }, cancellation);

    /// <summary>Deletes reports with what belongs to them, and what earlier deletions by hand have left behind.</summary>
    public async Task<PrunedRows> DeleteAsync(PruneQuery query, CancellationToken cancellation)
    {
        (string where, (string Name, object Value)[] values) = QueryText.Of(query);
        PrunedRows all = new(0, 0);
        while (await IdsAsync($"SELECT id FROM reports WHERE {where} ORDER BY id LIMIT @most", values, cancellation) is { Count: > 0 } reports)
        {
            all += await database.WriteAsync(async connection =>
            {
                PrunedRows some = new(0, 0);
                foreach (long id in reports)
                {
                    // It may have been seen again since it was found.
                    if (await ExecuteAsync(connection, $"DELETE FROM reports WHERE id = @id AND {where}", cancellation, [("id", id), .. values]) > 0)
                    {
                        int submissions = await ExecuteAsync(
                            connection, $"DELETE FROM submissions WHERE report_id = @id AND state = '{nameof(SubmissionState.Done)}'", cancellation, ("id", id));
                        some += new PrunedRows(1, submissions);
                    }
                }

                return some;
            }, cancellation);
        }

        await DeleteEachAsync(LostRules, "DELETE FROM report_rules WHERE report_id = @id", [], cancellation);
        long lost = await DeleteEachAsync(LostSubmissions, $"DELETE FROM submissions WHERE number = @id AND state = '{nameof(SubmissionState.Done)}'", [], cancellation);
        long parked = query.Product.Length > 0 ? 0 : await DeleteEachAsync(
            ParkedSubmissions, $"DELETE FROM submissions WHERE number = @id AND state = '{nameof(SubmissionState.Parked)}'",
            [("before", UnixMicroseconds.Of(query.Before))], cancellation);
        return all + new PrunedRows(0, lost + parked);
    }

    // What is found and cannot be deleted, as somebody has changed it meanwhile, ends it: the next time finds it, if it is still so.
    private async Task<long> DeleteEachAsync(string find, string delete, (string Name, object Value)[] values, CancellationToken cancellation)
    {
        long all = 0;
        for (long some = 1; some > 0; all += some)
        {
            IReadOnlyList<long> ids = await IdsAsync(find, values, cancellation);
            some = ids.Count == 0 ? 0 : await database.WriteAsync(async connection =>
            {
                long deleted = 0;
                foreach (long id in ids)
                {
                    deleted += await ExecuteAsync(connection, delete, cancellation, ("id", id));
                }

                return deleted;
            }, cancellation);
        }

        return all;
    }

    private Task<IReadOnlyList<long>> IdsAsync(string find, (string Name, object Value)[] values, CancellationToken cancellation) => database.RunAsync(
        connection => RowsAsync(connection, find, static row => row.GetInt64(0), cancellation, [.. values, ("most", AtOnce)]), cancellation);
}
