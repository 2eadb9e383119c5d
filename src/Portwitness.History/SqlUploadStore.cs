using System.Buffers.Binary;
using System.Runtime.CompilerServices;
using System.Security.Cryptography;
using static Portwitness.History.SqlDatabase;

namespace Portwitness.History;

/// <summary>Uploads in rows. What is complete has no client.</summary>
internal sealed class SqlUploadStore(SqlDatabase database) : IUploadStore
{
    private const string Nobody = "";

    private const string NextPiece =
        """
        SELECT start, data FROM upload_pieces WHERE upload_id = (SELECT id FROM uploads WHERE sha256 = @hash AND client = @client)
        AND start >= @from ORDER BY start LIMIT 1
        """;

    /// <inheritdoc/>
    public Task<IReadOnlyList<string>> FindMissingAsync(IReadOnlyCollection<string> hashes, CancellationToken cancellation) =>
        hashes.Count == 0 ? Task.FromResult<IReadOnlyList<string>>([]) : database.WriteAsync<IReadOnlyList<string>>(async connection =>
        {
            List<string> missing = [];
            foreach (string hash in hashes.Distinct())
            {
                if (await ExecuteAsync(connection, "UPDATE uploads SET changed_us = @now WHERE sha256 = @hash AND client = ''", cancellation, ("now", Now), ("hash", hash)) == 0)
                {
                    missing.Add(hash);
                }
            }

            return missing;
        }, cancellation);

    /// <inheritdoc/>
    public Task<(long Kept, bool IsComplete)> BeginAsync(string client, string hash, long bytes, CancellationToken cancellation)
    {
        ArgumentException.ThrowIfNullOrEmpty(client);
        return database.WriteAsync(async connection =>
        {
            if (await ScalarAsync(
                connection, "UPDATE uploads SET changed_us = @now WHERE sha256 = @hash AND client = '' RETURNING bytes", cancellation, ("now", Now), ("hash", hash)) is { } all)
            {
                return (Number(all), true);
            }

            await ExecuteAsync(
                connection, "DELETE FROM uploads WHERE sha256 = @hash AND client = @client AND bytes <> @bytes", cancellation,
                ("hash", hash), ("client", client), ("bytes", bytes));
            return (Number(await ScalarAsync(
                connection,
                """
                INSERT INTO uploads (sha256, client, bytes, received, changed_us) VALUES (@hash, @client, @bytes, 0, @now)
                ON CONFLICT (sha256, client) DO UPDATE SET changed_us = @now RETURNING received
                """,
                cancellation, ("hash", hash), ("client", client), ("bytes", bytes), ("now", Now))), false);
        }, cancellation);
    }

    /// <inheritdoc/>
    public Task<bool> AppendAsync(string client, string hash, long start, ReadOnlyMemory<byte> piece, CancellationToken cancellation) => database.WriteAsync(async connection =>
    {
        // Pieces that would go beyond the length that was said do not fit either.
        object? id = await ScalarAsync(
            connection,
            """
            UPDATE uploads SET received = received + @length, changed_us = @now
            WHERE sha256 = @hash AND client = @client AND received = @start AND received + @length <= bytes RETURNING id
            """,
            cancellation, ("length", piece.Length), ("now", Now), ("hash", hash), ("client", client), ("start", start));
        if (id is null)
        {
            return false;
        }

        await ExecuteAsync(
            connection, "INSERT INTO upload_pieces (upload_id, start, data) VALUES (@id, @start, @data)", cancellation,
            ("id", id), ("start", start), ("data", piece.ToArray()));
        return true;
    }, cancellation);

    /// <inheritdoc/>
    public async Task<bool> CompleteAsync(string client, string hash, CancellationToken cancellation)
    {
        using IncrementalHash read = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        await foreach (byte[] piece in ReadAsync(client, hash, cancellation))
        {
            read.AppendData(piece);
        }

        bool isRight = Convert.ToHexStringLower(read.GetHashAndReset()) == hash;
        return await database.WriteAsync(async connection =>
        {
            // Others may be completing the same now, other calls of this client among them, which take away what this one reads.
            await database.LockAsync(connection, BinaryPrimitives.ReadInt64BigEndian(Convert.FromHexString(hash)), cancellation);
            bool isThere = await ScalarAsync(connection, "SELECT 1 FROM uploads WHERE sha256 = @hash AND client = ''", cancellation, ("hash", hash)) is not null;
            if (isRight && !isThere)
            {
                return await ExecuteAsync(
                    connection, "UPDATE uploads SET client = '', changed_us = @now WHERE sha256 = @hash AND client = @client", cancellation,
                    ("now", Now), ("hash", hash), ("client", client)) > 0;
            }

            await ExecuteAsync(connection, "DELETE FROM uploads WHERE sha256 = @hash AND client = @client", cancellation, ("hash", hash), ("client", client));
            return isThere;
        }, cancellation);
    }

    /// <inheritdoc/>
    public IAsyncEnumerable<byte[]> ReadAsync(string hash, CancellationToken cancellation) => ReadAsync(Nobody, hash, cancellation);

    /// <inheritdoc/>
    public Task<int> PruneAsync(DateTimeOffset completeSince, DateTimeOffset partialSince, CancellationToken cancellation) => database.WriteAsync(
        connection => ExecuteAsync(
            connection,
            """
            DELETE FROM uploads WHERE (client <> '' AND changed_us < @partial)
            OR (client = '' AND changed_us < @complete AND sha256 NOT IN (SELECT sha256 FROM submission_uploads))
            """,
            cancellation, ("partial", UnixMicroseconds.Of(partialSince)), ("complete", UnixMicroseconds.Of(completeSince))),
        cancellation);

    // Piece by piece, each with a connection of its own: whoever reads slowly holds nothing.
    private async IAsyncEnumerable<byte[]> ReadAsync(string client, string hash, [EnumeratorCancellation] CancellationToken cancellation)
    {
        for (long from = 0; ;)
        {
            IReadOnlyList<(long Start, byte[] Data)> next = await database.RunAsync(
                connection => RowsAsync(
                    connection, NextPiece, static row => (row.GetInt64(0), row.GetFieldValue<byte[]>(1)), cancellation,
                    ("hash", hash), ("client", client), ("from", from)),
                cancellation);
            if (next.Count == 0)
            {
                yield break;
            }

            yield return next[0].Data;
            from = next[0].Start + Math.Max(1, next[0].Data.Length);
        }
    }

    private static long Now => UnixMicroseconds.Of(DateTimeOffset.UtcNow);
}
