using System.Data.Common;
using System.Security.Cryptography;
using System.Text;
using static Portwitness.History.SqlDatabase;

namespace Portwitness.History;

/// <summary>Tokens in rows.</summary>
internal sealed class SqlTokenStore(SqlDatabase database) : ITokenStore
{
    // The beginning tells people, and programs that look for secrets that leaked, what it is.
    private const string Begin = "pw_";
    private const int SecretBytes = 32;
    private const int LongestName = 200;
    private const string Select = "SELECT id, name, role, created_us, expires_us, revoked_us FROM tokens";

    /// <inheritdoc/>
    public Task<(ApiToken Token, string Secret)> CreateAsync(string name, TokenRole role, DateTimeOffset? expires, CancellationToken cancellation)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(name);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(name.Length, LongestName);
        string secret = Begin + Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(SecretBytes));
        ApiToken token = new(
            Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(4)), Text(name), role, Kept(DateTimeOffset.UtcNow), expires is { } end ? Kept(end) : null, null);
        return database.WriteAsync(async connection =>
        {
            await ExecuteAsync(
                connection,
                "INSERT INTO tokens (id, name, role, secret_sha256, created_us, expires_us) VALUES (@id, @name, @role, @secret, @created, @expires)",
                cancellation, ("id", token.Id), ("name", token.Name), ("role", role.ToString()), ("secret", HashOf(secret)),
                ("created", UnixMicroseconds.Of(token.Created)), ("expires", token.Expires is { } last ? UnixMicroseconds.Of(last) : DBNull.Value));
            return (token, secret);
        }, cancellation);
    }

    /// <inheritdoc/>
    public Task<IReadOnlyList<ApiToken>> ListAsync(CancellationToken cancellation) =>
        database.RunAsync(connection => RowsAsync(connection, Select + " ORDER BY created_us, id", Read, cancellation), cancellation);

    /// <inheritdoc/>
    public Task<bool> RevokeAsync(string id, CancellationToken cancellation) => database.WriteAsync(
        async connection => await ExecuteAsync(
            connection, "UPDATE tokens SET revoked_us = @now WHERE id = @id AND revoked_us IS NULL", cancellation,
            ("now", UnixMicroseconds.Of(DateTimeOffset.UtcNow)), ("id", Text(id))) > 0,
        cancellation);

    /// <inheritdoc/>
    public async Task<ApiToken?> FindAsync(string secret, CancellationToken cancellation)
    {
        IReadOnlyList<ApiToken> found = await database.RunAsync(
            connection => RowsAsync(connection, Select + " WHERE secret_sha256 = @secret", Read, cancellation, ("secret", HashOf(secret))), cancellation);
        return found.FirstOrDefault(static token => token.IsValidAt(DateTimeOffset.UtcNow));
    }

    private static string HashOf(string secret) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(secret)));

    // What this version does not know is the least, and a number is no name.
    private static TokenRole RoleOf(string name) => Enum.GetValues<TokenRole>().FirstOrDefault(role => role.ToString() == name, TokenRole.Read);

    private static DateTimeOffset Kept(DateTimeOffset time) => UnixMicroseconds.ToTime(UnixMicroseconds.Of(time));

    private static ApiToken Read(DbDataReader row) => new(
        row.GetString(0), row.GetString(1), RoleOf(row.GetString(2)), UnixMicroseconds.ToTime(row.GetInt64(3)),
        row.IsDBNull(4) ? null : UnixMicroseconds.ToTime(row.GetInt64(4)), row.IsDBNull(5) ? null : UnixMicroseconds.ToTime(row.GetInt64(5)));
}
