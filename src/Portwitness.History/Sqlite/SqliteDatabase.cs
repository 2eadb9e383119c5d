using System.Data.Common;
using Microsoft.Data.Sqlite;

namespace Portwitness.History.Sqlite;

/// <summary>
/// Reports in one file. It is written ahead (WAL) with synchronous=FULL: what was kept is kept when the process is killed, and when the power
/// goes. Whoever comes while another one writes waits up to a minute.
/// </summary>
internal sealed class SqliteDatabase(string path) : SqlDatabase(Open(path), "Sqlite")
{
    private const int WaitSeconds = 60;

    // A file has one writer at a time, and the library polls for its turn. Writers of this process take turns here, where none of them sleeps.
    private readonly SemaphoreSlim _turn = new(1);

    /// <inheritdoc/>
    public override string Place => path;

    /// <inheritdoc/>
    public override async Task<T> WriteAsync<T>(Func<DbConnection, Task<T>> write, CancellationToken cancellation)
    {
        await _turn.WaitAsync(cancellation);
        try
        {
            return await base.WriteAsync(write, cancellation);
        }
        finally
        {
            _turn.Release();
        }
    }

    /// <inheritdoc/>
    public override ValueTask DisposeAsync()
    {
        _turn.Dispose();
        return base.DisposeAsync();
    }

    /// <inheritdoc/>
    protected override async Task PrepareAsync(DbConnection connection, CancellationToken cancellation) =>
        await ExecuteAsync(connection, "PRAGMA journal_mode = WAL", cancellation);

    /// <inheritdoc/>
    protected override ValueTask<DbTransaction> BeginAsync(DbConnection connection, CancellationToken cancellation) =>
        ValueTask.FromResult<DbTransaction>(((SqliteConnection)connection).BeginTransaction(deferred: false));

    /// <inheritdoc/>
    protected override StoreException Explain(DbException exception)
    {
        // Result codes: https://www.sqlite.org/rescode.html.
        string why = exception is SqliteException { SqliteErrorCode: var code } ? code switch
        {
            5 or 6 => "another process has been writing to it for too long; try again, or give each its own file",
            8 => "it may not be written; check the permissions of the file and its folder",
            10 => "the disk did not do what was asked; check it",
            11 or 26 => "it is no database of reports, or is damaged; name another file",
            13 => "the disk is full",
            14 => "it cannot be opened; check that it is a file and that its folder may be written",
            _ => exception.Message,
        } : exception.Message;
        return new StoreException($"{path}: {why}.", false, exception);
    }

    private static DbDataSource Open(string path)
    {
        try
        {
            if (Directory.Exists(path))
            {
                throw new StoreException($"{path}: is a folder; name a file in it.", false);
            }

            Directory.CreateDirectory(Path.GetDirectoryName(Path.GetFullPath(path))!);
        }
        catch (Exception exception) when (exception is IOException or UnauthorizedAccessException or ArgumentException)
        {
            throw new StoreException($"{path}: its folder cannot be made: {exception.Message}", false, exception);
        }

        SqliteConnectionStringBuilder settings = new() { DataSource = path, DefaultTimeout = WaitSeconds, ForeignKeys = true, Pooling = true };
        return SqliteFactory.Instance.CreateDataSource(settings.ConnectionString);
    }
}
