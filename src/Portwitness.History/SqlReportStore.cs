using System.Data.Common;
using System.Globalization;
using Google.Protobuf;
using Portwitness.Contracts.V1;

namespace Portwitness.History;

/// <summary>What both kinds of database have in common: the statements, and how a report is put into rows.</summary>
internal abstract class SqlReportStore(DbDataSource source, string kind) : IReportStore
{
    private const string Insert =
        """
        INSERT INTO reports (input_key, product, sample, firmware, verdict, tool_version, violations, mismatches, cautions, notes, first_seen_us, last_seen_us, report)
        VALUES (@input_key, @product, @sample, @firmware, @verdict, @tool_version, @violations, @mismatches, @cautions, @notes, @now, @now, @report)
        ON CONFLICT (input_key) DO NOTHING RETURNING id
        """;

    // Another process may have kept it in the meantime, and its entry is then seen here.
    private const string Seen = "UPDATE reports SET last_seen_us = @now WHERE input_key = @input_key AND last_seen_us < @now";
    private const string Known = "SELECT id FROM reports WHERE input_key = @input_key";
    private const string InsertRule = "INSERT INTO report_rules (report_id, rule, findings) VALUES (@id, @rule, @findings)";

    /// <inheritdoc/>
    public abstract string Place { get; }

    /// <summary>Brings the database to this version; processes that do it at once wait for each other.</summary>
    public Task MigrateAsync(CancellationToken cancellation) => RunAsync(async connection =>
    {
        await PrepareAsync(connection, cancellation);
        await using DbTransaction transaction = await BeginAsync(connection, cancellation);
        await LockAsync(connection, cancellation);
        await ExecuteAsync(connection, "CREATE TABLE IF NOT EXISTS schema_version (version INTEGER NOT NULL)", cancellation);
        IReadOnlyList<(int Version, string Script)> scripts = Migrations.Of(kind);
        await using DbCommand read = Command(connection, "SELECT COALESCE(MAX(version), 0) FROM schema_version");
        int version = Convert.ToInt32(await read.ExecuteScalarAsync(cancellation), CultureInfo.InvariantCulture);
        if (version > scripts.Count)
        {
            throw new StoreException(
                $"{Place}: was written by a later version of this tool (schema {version}, this one knows {scripts.Count}); use that one, or another place.", false);
        }

        foreach ((int number, string script) in scripts.Where(one => one.Version > version))
        {
            await ExecuteAsync(connection, script, cancellation);
            await ExecuteAsync(connection, "INSERT INTO schema_version (version) VALUES (@version)", cancellation, ("version", number));
        }

        await transaction.CommitAsync(cancellation);
        return true;
    }, cancellation);

    /// <inheritdoc/>
    public virtual Task<long> SaveAsync(string key, ProductReport report, CancellationToken cancellation)
    {
        ArgumentException.ThrowIfNullOrEmpty(key);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(key.Length, 128);
        int Count(Severity severity) => report.Findings.Count(finding => finding.Severity == severity);
        return RunAsync(async connection =>
        {
            long now = UnixMicroseconds.Of(DateTimeOffset.UtcNow);
            await using DbTransaction transaction = await BeginAsync(connection, cancellation);
            await using DbCommand insert = Command(
                connection, Insert, ("input_key", key), ("product", Text(report.Product)), ("sample", Text(report.Sample)), ("firmware", Text(report.Firmware)),
                ("verdict", report.Verdict.ToString()), ("tool_version", Text(report.ToolVersion)), ("violations", Count(Severity.Violation)),
                ("mismatches", Count(Severity.Mismatch)), ("cautions", Count(Severity.Caution)), ("notes", Count(Severity.Note)), ("now", now),
                ("report", report.ToByteArray()));
            if (await insert.ExecuteScalarAsync(cancellation) is not { } added)
            {
                await ExecuteAsync(connection, Seen, cancellation, ("now", now), ("input_key", key));
                await using DbCommand known = Command(connection, Known, ("input_key", key));
                long id = Convert.ToInt64(await known.ExecuteScalarAsync(cancellation), CultureInfo.InvariantCulture);
                await transaction.CommitAsync(cancellation);
                return id;
            }

            long entry = Convert.ToInt64(added, CultureInfo.InvariantCulture);
            foreach ((string rule, int findings) in report.Findings.CountBy(static finding => Text(finding.Rule)))
            {
                await ExecuteAsync(connection, InsertRule, cancellation, ("id", entry), ("rule", rule), ("findings", findings));
            }

            await transaction.CommitAsync(cancellation);
            return entry;
        }, cancellation);
    }

    /// <inheritdoc/>
    public Task<IReadOnlyList<StoredReport>> ListAsync(ReportQuery query, CancellationToken cancellation) => RunAsync<IReadOnlyList<StoredReport>>(async connection =>
    {
        (string where, (string, object)[] values) = QueryText.Of(query);
        await using DbCommand command = Command(
            connection,
            "SELECT id, product, sample, firmware, verdict, tool_version, violations, mismatches, cautions, notes, first_seen_us, last_seen_us FROM reports"
            + $" WHERE {where} ORDER BY id DESC LIMIT @most", values);
        await using DbDataReader rows = await command.ExecuteReaderAsync(cancellation);
        List<StoredReport> found = [];
        while (await rows.ReadAsync(cancellation))
        {
            found.Add(new StoredReport(
                rows.GetInt64(0), rows.GetString(1), rows.GetString(2), rows.GetString(3), Enum.TryParse(rows.GetString(4), out Verdict verdict) ? verdict : default,
                rows.GetString(5), new FindingCounts(rows.GetInt32(6), rows.GetInt32(7), rows.GetInt32(8), rows.GetInt32(9)), UnixMicroseconds.ToTime(rows.GetInt64(10)),
                UnixMicroseconds.ToTime(rows.GetInt64(11))));
        }

        return found;
    }, cancellation);

    /// <inheritdoc/>
    public Task<ProductReport?> FindAsync(long id, CancellationToken cancellation) => RunAsync(async connection =>
    {
        await using DbCommand command = Command(connection, "SELECT report FROM reports WHERE id = @id", ("id", id));
        return await command.ExecuteScalarAsync(cancellation) is byte[] bytes ? ProductReport.Parser.ParseFrom(bytes) : null;
    }, cancellation);

    /// <inheritdoc/>
    public virtual ValueTask DisposeAsync()
    {
        GC.SuppressFinalize(this);
        return source.DisposeAsync();
    }

    /// <summary>Says what went wrong, with a remedy.</summary>
    protected abstract StoreException Explain(DbException exception);

    /// <summary>What is set once for the database, before it is used.</summary>
    protected virtual Task PrepareAsync(DbConnection connection, CancellationToken cancellation) => Task.CompletedTask;

    /// <summary>Begins to write; who comes second waits.</summary>
    protected abstract ValueTask<DbTransaction> BeginAsync(DbConnection connection, CancellationToken cancellation);

    /// <summary>Keeps other processes from migrating until the transaction ends.</summary>
    protected virtual Task LockAsync(DbConnection connection, CancellationToken cancellation) => Task.CompletedTask;

    /// <summary>Runs a statement.</summary>
    protected static async Task ExecuteAsync(DbConnection connection, string text, CancellationToken cancellation, params (string Name, object Value)[] values)
    {
        await using DbCommand command = Command(connection, text, values);
        await command.ExecuteNonQueryAsync(cancellation);
    }

    // Null characters are no text for either database.
    private static string Text(string text) => text.Replace('\0', '\ufffd');

    private static DbCommand Command(DbConnection connection, string text, params (string Name, object Value)[] values)
    {
        DbCommand command = connection.CreateCommand();
        command.CommandText = text;
        foreach ((string name, object value) in values)
        {
            DbParameter parameter = command.CreateParameter();
            (parameter.ParameterName, parameter.Value) = (name, value);
            command.Parameters.Add(parameter);
        }

        return command;
    }

    private async Task<T> RunAsync<T>(Func<DbConnection, Task<T>> run, CancellationToken cancellation)
    {
        try
        {
            await using DbConnection connection = await source.OpenConnectionAsync(cancellation);
            return await run(connection);
        }
        catch (DbException exception)
        {
            throw Explain(exception);
        }
        catch (InvalidProtocolBufferException exception)
        {
            throw new StoreException($"{Place}: holds a report that is damaged.", false, exception);
        }
    }
}
