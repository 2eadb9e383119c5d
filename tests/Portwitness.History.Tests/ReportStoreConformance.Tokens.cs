using System.Data.Common;
using System.Globalization;
using System.Security.Cryptography;
using System.Text;

namespace Portwitness.History.Tests;

/// <summary>Tokens.</summary>
public abstract partial class ReportStoreConformance
{
    private async Task Token_IsKnownByItsSecret_WhichIsNotKept()
    {
        string place = await NewPlaceAsync();
        await using IReportStore store = await OpenAsync(place);

        (ApiToken token, string secret) = await store.Tokens.CreateAsync("bench 3'; --\0", TokenRole.Submit, null, default);

        secret.Should().MatchRegex("^pw_[0-9a-f]{64}$");
        ApiToken found = (await store.Tokens.FindAsync(secret, default))!;
        (found.Id, found.Name, found.Role, found.Expires).Should().Be((token.Id, "bench 3'; --\ufffd", TokenRole.Submit, null));
        (await store.Tokens.FindAsync(secret + "0", default)).Should().BeNull();
        (await store.Tokens.FindAsync(secret.ToUpperInvariant(), default)).Should().BeNull();
        string rows = await DumpAsync(place, "tokens");
        rows.Should().NotContain(secret).And.NotContain(secret["pw_".Length..])
            .And.Contain(Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(secret))));
    }

    private async Task RevokedAndExpiredTokens_AreNotKnown()
    {
        await using IReportStore store = await OpenAsync(await NewPlaceAsync());
        (ApiToken revoked, string first) = await store.Tokens.CreateAsync("a", TokenRole.Read, null, default);
        (_, string expired) = await store.Tokens.CreateAsync("b", TokenRole.Admin, DateTimeOffset.UtcNow.AddSeconds(-1), default);
        (_, string valid) = await store.Tokens.CreateAsync("c", TokenRole.Admin, DateTimeOffset.UtcNow.AddDays(1), default);

        (await store.Tokens.RevokeAsync(revoked.Id, default)).Should().BeTrue();
        (await store.Tokens.RevokeAsync(revoked.Id, default)).Should().BeFalse("it is revoked");
        (await store.Tokens.RevokeAsync("nobody\0", default)).Should().BeFalse();

        (await store.Tokens.FindAsync(first, default)).Should().BeNull();
        (await store.Tokens.FindAsync(expired, default)).Should().BeNull();
        (await store.Tokens.FindAsync(valid, default))!.Role.Should().Be(TokenRole.Admin);
        (await store.Tokens.ListAsync(default)).Select(static token => token.Name).Should().Equal("a", "b", "c");
    }

    private protected static async Task<string> RowsAsTextAsync(DbCommand command)
    {
        StringBuilder text = new();
        await using DbDataReader rows = await command.ExecuteReaderAsync();
        while (await rows.ReadAsync())
        {
            for (int column = 0; column < rows.FieldCount; column++)
            {
                text.Append(CultureInfo.InvariantCulture, $"{rows.GetValue(column)}|");
            }
        }

        return text.ToString();
    }
}
