using Google.Protobuf;
using Portwitness.Contracts.V1;
using static Portwitness.History.SqlDatabase;

namespace Portwitness.History;

/// <summary>Reports in rows.</summary>
internal sealed class SqlReportStore(SqlDatabase database) : IReportStore
{
    private const string Insert =
        """
        INSERT INTO reports (input_key, product, product_folded, sample, firmware, verdict, tool_version, violations, mismatches, cautions, notes, first_seen_us, last_seen_us, report)
        VALUES (@input_key, @product, @folded, @sample, @firmware, @verdict, @tool_version, @violations, @mismatches, @cautions, @notes, @now, @now, @report)
        ON CONFLICT (input_key) DO NOTHING RETURNING id
        """;

    // Another process may have kept it in the meantime, and its entry is then seen here.
    private const string Seen = "UPDATE reports SET last_seen_us = @now WHERE input_key = @input_key AND last_seen_us < @now";
    private const string Known = "SELECT id FROM reports WHERE input_key = @input_key";
    private const string Unfolded = "SELECT id, product FROM reports WHERE product_folded IS NULL ORDER BY id LIMIT @most";
    private const int FoldedAtOnce = 1000;
    private const string InsertRule = "INSERT INTO report_rules (report_id, rule, findings) VALUES (@id, @rule, @findings)";

    /// <inheritdoc/>
    public string Place => database.Place;

    /// <inheritdoc/>
    public ITokenStore Tokens { get; } = new SqlTokenStore(database);

    /// <inheritdoc/>
    public ISubmissionStore Submissions { get; } = new SqlSubmissionStore(database);

    /// <inheritdoc/>
    public IUploadStore Uploads { get; } = new SqlUploadStore(database);

    /// <inheritdoc/>
    public Task<long> SaveAsync(string key, ProductReport report, CancellationToken cancellation)
    {
        ArgumentException.ThrowIfNullOrEmpty(key);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(key.Length, 128);
        int Count(Severity severity) => report.Findings.Count(finding => finding.Severity == severity);
        return database.WriteAsync(async connection =>
        {
            long now = UnixMicroseconds.Of(DateTimeOffset.UtcNow);
            object? added = await ScalarAsync(
                connection, Insert, cancellation, ("input_key", key), ("product", Text(report.Product)), ("folded", FoldedName.Of(Text(report.Product))), ("sample", Text(report.Sample)),
                ("firmware", Text(report.Firmware)), ("verdict", report.Verdict.ToString()), ("tool_version", Text(report.ToolVersion)),
                ("violations", Count(Severity.Violation)), ("mismatches", Count(Severity.Mismatch)), ("cautions", Count(Severity.Caution)),
                ("notes", Count(Severity.Note)), ("now", now), ("report", report.ToByteArray()));
            if (added is null)
            {
                await ExecuteAsync(connection, Seen, cancellation, ("now", now), ("input_key", key));
                return Number(await ScalarAsync(connection, Known, cancellation, ("input_key", key)));
            }

            foreach ((string rule, int findings) in report.Findings.CountBy(static finding => Text(finding.Rule)))
            {
                await ExecuteAsync(connection, InsertRule, cancellation, ("id", Number(added)), ("rule", rule), ("findings", findings));
            }

            return Number(added);
        }, cancellation);
    }

    /// <inheritdoc/>
    public async Task<IReadOnlyList<StoredReport>> ListAsync(ReportQuery query, CancellationToken cancellation)
    {
        if (query.Product.Length > 0)
        {
            await FoldAsync(cancellation);
        }

        (string where, (string, object)[] values) = QueryText.Of(query);
        return await database.RunAsync(connection => RowsAsync(
            connection,
            "SELECT id, product, sample, firmware, verdict, tool_version, violations, mismatches, cautions, notes, first_seen_us, last_seen_us FROM reports"
            + $" WHERE {where} ORDER BY id DESC LIMIT @most",
            static row => new StoredReport(
                row.GetInt64(0), row.GetString(1), row.GetString(2), row.GetString(3), Enum.TryParse(row.GetString(4), out Verdict verdict) ? verdict : default,
                row.GetString(5), new FindingCounts(row.GetInt32(6), row.GetInt32(7), row.GetInt32(8), row.GetInt32(9)), UnixMicroseconds.ToTime(row.GetInt64(10)),
                UnixMicroseconds.ToTime(row.GetInt64(11))),
            cancellation, values), cancellation);
    }

    /// <inheritdoc/>
    public Task<ProductReport?> FindAsync(long id, CancellationToken cancellation) => database.RunAsync(async connection =>
    {
        try
        {
            return await ScalarAsync(connection, "SELECT report FROM reports WHERE id = @id", cancellation, ("id", id)) is byte[] bytes
                ? ProductReport.Parser.ParseFrom(bytes) : null;
        }
        catch (InvalidProtocolBufferException exception)
        {
            throw new StoreException($"{Place}: holds a report that is damaged.", false, exception) { IsDamaged = true };
        }
    }, cancellation);

    /// <inheritdoc/>
    public async Task<PrunedRows> CountPrunableAsync(PruneQuery query, CancellationToken cancellation)
    {
        await FoldAsync(cancellation);
        return await new SqlPruning(database).CountAsync(query, cancellation);
    }

    /// <inheritdoc/>
    public async Task<PrunedRows> PruneAsync(PruneQuery query, CancellationToken cancellation)
    {
        await FoldAsync(cancellation);
        return await new SqlPruning(database).DeleteAsync(query, cancellation);
    }

    /// <inheritdoc/>
    public ValueTask DisposeAsync() => database.DisposeAsync();

    // Entries of an earlier version, which may still be writing beside this one.
    private async Task FoldAsync(CancellationToken cancellation)
    {
        IReadOnlyList<(long Id, string Product)> unfolded;
        while ((unfolded = await database.RunAsync(
            connection => RowsAsync(connection, Unfolded, static row => (row.GetInt64(0), row.GetString(1)), cancellation, ("most", FoldedAtOnce)), cancellation)).Count > 0)
        {
            await database.WriteAsync(async connection =>
            {
                foreach ((long id, string product) in unfolded)
                {
                    await ExecuteAsync(
                        connection, "UPDATE reports SET product_folded = @folded WHERE id = @id", cancellation, ("folded", FoldedName.Of(product)), ("id", id));
                }

                return true;
            }, cancellation);
        }
    }
}
