using System.Security.Cryptography;
using System.Text;
using Portwitness.Contracts.V1;

namespace Portwitness.History.Tests;

/// <summary>Tokens: who may use a service that keeps its reports in a store.</summary>
public abstract partial class ReportStoreConformance
{
    private static readonly Dictionary<string, Func<ReportStoreConformance, Task>> OfTokens = new()
    {
        [nameof(Token_IsFoundByItsSecret)] = static store => store.Token_IsFoundByItsSecret(),
        [nameof(Secret_IsNowhereInTheStore_ButItsHashIs)] = static store => store.Secret_IsNowhereInTheStore_ButItsHashIs(),
        [nameof(Tokens_ThatAreRevokedExpiredOrUnknown_AreNotFound)] = static store => store.Tokens_ThatAreRevokedExpiredOrUnknown_AreNotFound(),
        [nameof(Tokens_AreListedOldestFirst)] = static store => store.Tokens_AreListedOldestFirst(),
        [nameof(HostileNamesOfTokens_AreKept)] = static store => store.HostileNamesOfTokens_AreKept(),
        [nameof(RevokedByOneProcess_IsGoneForAnother)] = static store => store.RevokedByOneProcess_IsGoneForAnother(),
        [nameof(UnknownRole_IsTheLeast)] = static store => store.UnknownRole_IsTheLeast(),
        [nameof(FirstSchema_IsMigrated_AndKeepsItsReports)] = static store => store.FirstSchema_IsMigrated_AndKeepsItsReports(),
    };

    private async Task Token_IsFoundByItsSecret()
    {
        await using IReportStore store = await OpenAsync(await NewPlaceAsync());
        DateTimeOffset end = DateTimeOffset.UnixEpoch.AddYears(100);

        (ApiToken made, string secret) = await store.Tokens.CreateAsync("bench", TokenRole.Submit, end, default);
        (_, string other) = await store.Tokens.CreateAsync("bench", TokenRole.Read, null, default);

        secret.Should().MatchRegex("^pw_[0-9a-f]{64}$").And.NotBe(other);
        made.Id.Should().MatchRegex("^[0-9a-f]{8}$");
        (await store.Tokens.FindAsync(secret, default)).Should().Be(made);
        (made.Name, made.Role, made.Expires, made.Revoked).Should().Be(("bench", TokenRole.Submit, end, null));
        made.Created.Should().BeCloseTo(DateTimeOffset.UtcNow, TimeSpan.FromMinutes(5));
        (await store.Tokens.FindAsync(other, default))!.Role.Should().Be(TokenRole.Read);
    }

    private async Task Secret_IsNowhereInTheStore_ButItsHashIs()
    {
        string place = await NewPlaceAsync();
        await using IReportStore store = await OpenAsync(place);
        (_, string secret) = await store.Tokens.CreateAsync("bench", TokenRole.Admin, null, default);
        await store.Tokens.FindAsync(secret, default);

        string everything = await EverythingAsync(place);

        everything.Should().Contain(Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(secret))));
        everything.Should().NotContain(secret).And.NotContain(secret["pw_".Length..])
            .And.NotContain(Encoding.Latin1.GetString(Convert.FromHexString(secret["pw_".Length..])));
    }

    private async Task Tokens_ThatAreRevokedExpiredOrUnknown_AreNotFound()
    {
        await using IReportStore store = await OpenAsync(await NewPlaceAsync());
        (ApiToken revoked, string ended) = await store.Tokens.CreateAsync("a", TokenRole.Admin, null, default);
        (_, string expired) = await store.Tokens.CreateAsync("b", TokenRole.Admin, DateTimeOffset.UtcNow.AddSeconds(-1), default);
        (ApiToken good, string kept) = await store.Tokens.CreateAsync("c", TokenRole.Admin, DateTimeOffset.UtcNow.AddHours(1), default);

        (await store.Tokens.RevokeAsync(revoked.Id, default)).Should().BeTrue();
        (await store.Tokens.RevokeAsync(revoked.Id, default)).Should().BeFalse();
        (await store.Tokens.RevokeAsync("ffffffff", default)).Should().BeFalse();
        (await store.Tokens.RevokeAsync("' OR 1=1 --\0\ud800", default)).Should().BeFalse();

        foreach (string bad in new[] { ended, expired, kept.ToUpperInvariant(), kept[..^1], "", "' OR 1=1 --", "\0", "\ud800" })
        {
            (await store.Tokens.FindAsync(bad, default)).Should().BeNull();
        }

        (await store.Tokens.FindAsync(kept, default))!.Id.Should().Be(good.Id);
        (await store.Tokens.ListAsync(default)).Single(token => token.Id == revoked.Id).Revoked
            .Should().BeCloseTo(DateTimeOffset.UtcNow, TimeSpan.FromMinutes(5));
    }

    private async Task Tokens_AreListedOldestFirst()
    {
        string place = await NewPlaceAsync();
        await using IReportStore store = await OpenAsync(place);
        (await store.Tokens.ListAsync(default)).Should().BeEmpty();
        (ApiToken first, _) = await store.Tokens.CreateAsync("z", TokenRole.Admin, null, default);
        (ApiToken second, _) = await store.Tokens.CreateAsync("a", TokenRole.Read, null, default);
        (ApiToken third, _) = await store.Tokens.CreateAsync("m", TokenRole.Read, null, default);
        // Whatever the clock did meanwhile.
        await ExecuteAsync(place, $"UPDATE tokens SET created_us = 2 WHERE id = '{first.Id}'");
        await ExecuteAsync(place, $"UPDATE tokens SET created_us = 3 WHERE id = '{second.Id}'");
        await ExecuteAsync(place, $"UPDATE tokens SET created_us = 1 WHERE id = '{third.Id}'");

        (await store.Tokens.ListAsync(default)).Select(token => token.Name).Should().Equal("m", "z", "a");
    }

    private async Task HostileNamesOfTokens_AreKept()
    {
        await using IReportStore store = await OpenAsync(await NewPlaceAsync());
        string[] names = ["'; DROP TABLE tokens; --", "a\0b", "\u001b[31mred\n\u202e", "half a pair \ud800", new string('é', 200), "🔌"];
        foreach (string name in names)
        {
            (ApiToken made, string secret) = await store.Tokens.CreateAsync(name, TokenRole.Read, null, default);
            (await store.Tokens.FindAsync(secret, default)).Should().Be(made);
        }

        (await store.Tokens.ListAsync(default)).Select(token => token.Name).Should().BeEquivalentTo(
            names.Select(static name => name.Replace('\0', '\ufffd').Replace('\ud800', '\ufffd')), static order => order.WithStrictOrdering());
        await Assert.ThrowsAnyAsync<ArgumentException>(() => store.Tokens.CreateAsync(" ", TokenRole.Read, null, default));
        await Assert.ThrowsAnyAsync<ArgumentException>(() => store.Tokens.CreateAsync(new string('x', 201), TokenRole.Read, null, default));
    }

    private async Task RevokedByOneProcess_IsGoneForAnother()
    {
        string place = await NewPlaceAsync();
        await using IReportStore service = await OpenAsync(place);
        await using IReportStore command = await OpenAsync(place);
        (ApiToken token, string secret) = await command.Tokens.CreateAsync("bench", TokenRole.Read, null, default);
        (await service.Tokens.FindAsync(secret, default)).Should().Be(token);

        await command.Tokens.RevokeAsync(token.Id, default);

        (await service.Tokens.FindAsync(secret, default)).Should().BeNull();
    }

    // A later version may know more roles.
    private async Task UnknownRole_IsTheLeast()
    {
        string place = await NewPlaceAsync();
        await using IReportStore store = await OpenAsync(place);
        foreach (string role in new[] { "Owner", "2", "-1", "" })
        {
            (_, string secret) = await store.Tokens.CreateAsync("bench", TokenRole.Admin, null, default);
            await ExecuteAsync(place, $"UPDATE tokens SET role = '{role}' WHERE role = 'Admin'");

            (await store.Tokens.FindAsync(secret, default))!.Role.Should().Be(TokenRole.Read);
        }
    }

    private async Task FirstSchema_IsMigrated_AndKeepsItsReports()
    {
        string place = await NewPlaceAsync();
        await using Stream script = typeof(ReportStores).Assembly.GetManifestResourceStream($"{Kind}.001-reports")!;
        using StreamReader reader = new(script);
        await ExecuteAsync(place, await reader.ReadToEndAsync());
        await ExecuteAsync(place, "CREATE TABLE schema_version (version INTEGER NOT NULL)");
        await ExecuteAsync(place, "INSERT INTO schema_version (version) VALUES (1)");
        await ExecuteAsync(
            place,
            "INSERT INTO reports (input_key, product, sample, firmware, verdict, tool_version, violations, mismatches, cautions, notes, first_seen_us, last_seen_us, report)"
            + $" VALUES ('key', 'Tarnholt TH-65', '', '', 'Holds', '0.1.0', 0, 0, 0, 0, 5, 5, {Bytes})".Replace("05FF", "0161", StringComparison.Ordinal));

        await using IReportStore store = await OpenAsync(place);

        (await store.Tokens.ListAsync(default)).Should().BeEmpty();
        (_, string secret) = await store.Tokens.CreateAsync("bench", TokenRole.Read, null, default);
        (await store.Tokens.FindAsync(secret, default)).Should().NotBeNull();
        StoredReport kept = (await store.ListAsync(new ReportQuery(), default)).Single();
        (kept.Product, kept.FirstSeen).Should().Be(("Tarnholt TH-65", UnixMicroseconds.ToTime(5)));
        (await store.FindAsync(kept.Id, default)).Should().Be(new ProductReport { Product = "a" });
    }

    /// <summary>The name of its scripts.</summary>
    private protected abstract string Kind { get; }

    /// <summary>Everything that the store holds, as Latin-1.</summary>
    private protected abstract Task<string> EverythingAsync(string place);
}
