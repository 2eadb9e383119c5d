using System.Collections.Concurrent;
using System.Security.Cryptography;
using System.Text;
using System.Threading.RateLimiting;
using Portwitness.History;

namespace Portwitness.Service.Access;

/// <summary>
/// Looks tokens up. A good one is remembered for a few seconds, by its hash: revoking it takes that long. Who shows bad ones is slowed down
/// by where it comes from, without the store being asked.
/// </summary>
internal sealed class KnownTokens(ITokenStore store, TimeProvider time) : IDisposable
{
    private const int LongestSecret = 128;
    private static readonly TimeSpan Remembered = TimeSpan.FromSeconds(5);

    private readonly ConcurrentDictionary<string, (ApiToken Token, DateTimeOffset Until)> _known = new();

    private readonly PartitionedRateLimiter<string> _failures = PartitionedRateLimiter.Create<string, string>(static from =>
        RateLimitPartition.GetTokenBucketLimiter(from, static _ => new TokenBucketRateLimiterOptions
        {
            TokenLimit = 20, TokensPerPeriod = 5, ReplenishmentPeriod = TimeSpan.FromSeconds(1), QueueLimit = 0, AutoReplenishment = true,
        }));

    /// <summary>The token of a secret; null when it is not valid.</summary>
    /// <exception cref="StoreException">The store could not be asked.</exception>
    public async Task<ApiToken?> FindAsync(string secret, string from, CancellationToken cancellation)
    {
        if (secret.Length is 0 or > LongestSecret)
        {
            return null;
        }

        string hash = Convert.ToHexString(SHA256.HashData(Encoding.UTF8.GetBytes(secret)));
        DateTimeOffset now = time.GetUtcNow();
        if (_known.TryGetValue(hash, out (ApiToken Token, DateTimeOffset Until) known) && known.Until > now)
        {
            return known.Token.IsValidAt(now) ? known.Token : null;
        }

        // What was good is asked for again whatever others show from the same place, which may be many clients behind one address.
        bool wasGood = known.Token is not null;
        if (!wasGood && _failures.GetStatistics(from)?.CurrentAvailablePermits == 0)
        {
            return null;
        }

        ApiToken? token = await store.FindAsync(secret, cancellation);
        if (token is not null)
        {
            _known[hash] = (token, now + Remembered);
            return token;
        }

        _known.TryRemove(hash, out _);
        using RateLimitLease spent = _failures.AttemptAcquire(from);
        return null;
    }

    /// <inheritdoc/>
    public void Dispose() => _failures.Dispose();
}
