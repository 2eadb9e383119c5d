namespace Portwitness.History;

/// <summary>
/// Keeps what is too large for one request. What is complete is named by its SHA-256 alone and belongs to nobody; what is not yet belongs to
/// the client that sends it, so that no other one can spoil it.
/// </summary>
public interface IUploadStore
{
    /// <summary>Which of these hashes are not there; the others are kept for another while.</summary>
    /// <exception cref="StoreException">The store could not be asked.</exception>
    Task<IReadOnlyList<string>> FindMissingAsync(IReadOnlyCollection<string> hashes, CancellationToken cancellation);

    /// <summary>Begins, or goes on.</summary>
    /// <param name="client">Whose it is; not empty.</param>
    /// <param name="hash">SHA-256 of the whole, 64 lower-case hexadecimal digits.</param>
    /// <param name="bytes">The length of the whole. Another one than before begins anew.</param>
    /// <param name="cancellation">Stops it.</param>
    /// <returns>How much is kept; all of it when it is complete, whoever sent it.</returns>
    /// <exception cref="StoreException">The store could not be written.</exception>
    Task<(long Kept, bool IsComplete)> BeginAsync(string client, string hash, long bytes, CancellationToken cancellation);

    /// <summary>Keeps the next piece.</summary>
    /// <returns>Whether it fitted behind what is kept; otherwise another call of the same client has written meanwhile, and nothing changed.</returns>
    /// <exception cref="StoreException">The store could not be written.</exception>
    Task<bool> AppendAsync(string client, string hash, long start, ReadOnlyMemory<byte> piece, CancellationToken cancellation);

    /// <summary>Reads all of it again and compares its hash. What is wrong is dropped. Of several calls that complete the same at once all succeed.</summary>
    /// <returns>Whether all of it is there now, whoever sent it.</returns>
    /// <exception cref="StoreException">The store could not be read or written.</exception>
    Task<bool> CompleteAsync(string client, string hash, CancellationToken cancellation);

    /// <summary>The pieces of what is complete, in order; none when it is not there.</summary>
    /// <exception cref="StoreException">The store could not be read.</exception>
    IAsyncEnumerable<byte[]> ReadAsync(string hash, CancellationToken cancellation);

    /// <summary>Drops what no submission waits for and nobody has touched since.</summary>
    /// <param name="completeSince">For what is complete.</param>
    /// <param name="partialSince">For what is not.</param>
    /// <param name="cancellation">Stops it.</param>
    /// <returns>How many were dropped.</returns>
    /// <exception cref="StoreException">The store could not be written.</exception>
    Task<int> PruneAsync(DateTimeOffset completeSince, DateTimeOffset partialSince, CancellationToken cancellation);
}
