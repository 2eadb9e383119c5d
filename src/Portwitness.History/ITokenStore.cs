namespace Portwitness.History;

/// <summary>Keeps API tokens. Of a token only the SHA-256 of its secret is kept: 256 random bits need no slower hash.</summary>
public interface ITokenStore
{
    /// <summary>Makes a token.</summary>
    /// <param name="name">Whose it is, 1 to 200 characters.</param>
    /// <param name="role">What it is for.</param>
    /// <param name="expires">When it ends; null for never.</param>
    /// <param name="cancellation">Stops it.</param>
    /// <returns>The token, and its secret, which is shown this once.</returns>
    /// <exception cref="StoreException">The store could not be written.</exception>
    Task<(ApiToken Token, string Secret)> CreateAsync(string name, TokenRole role, DateTimeOffset? expires, CancellationToken cancellation);

    /// <summary>All tokens, revoked and expired ones too, the oldest first.</summary>
    /// <exception cref="StoreException">The store could not be read.</exception>
    Task<IReadOnlyList<ApiToken>> ListAsync(CancellationToken cancellation);

    /// <summary>Ends a token now.</summary>
    /// <returns>Whether there is one of that number that was not revoked before.</returns>
    /// <exception cref="StoreException">The store could not be written.</exception>
    Task<bool> RevokeAsync(string id, CancellationToken cancellation);

    /// <summary>The token of a secret; null when there is none that is valid now.</summary>
    /// <exception cref="StoreException">The store could not be read.</exception>
    Task<ApiToken?> FindAsync(string secret, CancellationToken cancellation);
}
