using System.Data.Common;
using System.Globalization;
using System.Text;

namespace Portwitness.History;

/// <summary>What both kinds of database have in common: connections, migrations, and how failures are told.</summary>
internal abstract class SqlDatabase(DbDataSource source, string kind) : IAsyncDisposable
{
    // Any number that nothing else in the database uses.
    private const long MigrationLock = 0x506F7274;

    /// <summary>Where it is, in words that hold no secret.</summary>
    public abstract string Place { get; }

    /// <summary>Brings the database to this version; processes that do it at once wait for each other.</summary>
    public Task MigrateAsync(CancellationToken cancellation) => RunAsync(async connection =>
    {
        await PrepareAsync(connection, cancellation);
        await using DbTransaction transaction = await BeginAsync(connection, cancellation);
        await LockAsync(connection, MigrationLock, cancellation);
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

    /// <summary>Reads.</summary>
    /// <exception cref="StoreException">It could not be read.</exception>
    public async Task<T> RunAsync<T>(Func<DbConnection, Task<T>> run, CancellationToken cancellation)
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
    }

    /// <summary>Writes in one transaction, which is on disk when this returns.</summary>
    /// <exception cref="StoreException">It could not be written, and nothing of it was.</exception>
    public virtual Task<T> WriteAsync<T>(Func<DbConnection, Task<T>> write, CancellationToken cancellation) => RunAsync(async connection =>
    {
        await using DbTransaction transaction = await BeginAsync(connection, cancellation);
        T answer = await write(connection);
        await transaction.CommitAsync(cancellation);
        return answer;
    }, cancellation);

    /// <inheritdoc/>
    public virtual ValueTask DisposeAsync()
    {
        GC.SuppressFinalize(this);
        return source.DisposeAsync();
    }

    /// <summary>Until the transaction ends, whoever else asks for the same name waits. A database that has one writer at a time has nothing to do.</summary>
    public virtual Task LockAsync(DbConnection connection, long name, CancellationToken cancellation) => Task.CompletedTask;

    /// <summary>Runs a statement.</summary>
    /// <returns>How many rows it changed.</returns>
    public static async Task<int> ExecuteAsync(DbConnection connection, string text, CancellationToken cancellation, params (string Name, object Value)[] values)
    {
        await using DbCommand command = Command(connection, text, values);
        return await command.ExecuteNonQueryAsync(cancellation);
    }

    /// <summary>The first value of the first row; null when there is none.</summary>
    public static async Task<object?> ScalarAsync(DbConnection connection, string text, CancellationToken cancellation, params (string Name, object Value)[] values)
    {
        await using DbCommand command = Command(connection, text, values);
        return await command.ExecuteScalarAsync(cancellation) is { } value and not DBNull ? value : null;
    }

    /// <summary>A value as a whole number, however wide the database has it.</summary>
    public static long Number(object? value) => Convert.ToInt64(value, CultureInfo.InvariantCulture);

    /// <summary>All rows.</summary>
    public static async Task<IReadOnlyList<T>> RowsAsync<T>(
        DbConnection connection, string text, Func<DbDataReader, T> read, CancellationToken cancellation, params (string Name, object Value)[] values)
    {
        await using DbCommand command = Command(connection, text, values);
        await using DbDataReader rows = await command.ExecuteReaderAsync(cancellation);
        List<T> found = [];
        while (await rows.ReadAsync(cancellation))
        {
            found.Add(read(rows));
        }

        return found;
    }

    /// <summary>Null characters, and halves of surrogate pairs, are no text for either database.</summary>
    public static string Text(string text) => Encoding.UTF8.GetString(Encoding.UTF8.GetBytes(text)).Replace('\0', '\ufffd');

    /// <summary>Says what went wrong, with a remedy.</summary>
    protected abstract StoreException Explain(DbException exception);

    /// <summary>What is set once for the database, before it is used.</summary>
    protected virtual Task PrepareAsync(DbConnection connection, CancellationToken cancellation) => Task.CompletedTask;

    /// <summary>Begins to write; who comes second waits.</summary>
    protected abstract ValueTask<DbTransaction> BeginAsync(DbConnection connection, CancellationToken cancellation);

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
}
