using Portwitness.Contracts.V1;

namespace Portwitness.History.Tests;

/// <summary>What every store does. Each kind runs the same tests.</summary>
public abstract partial class ReportStoreConformance
{
    private static readonly Dictionary<string, Func<ReportStoreConformance, Task>> All = new()
    {
        [nameof(WhatIsKept_ComesBackWhole)] = static store => store.WhatIsKept_ComesBackWhole(),
        [nameof(SameInput_IsOneEntry_SeenAgain)] = static store => store.SameInput_IsOneEntry_SeenAgain(),
        [nameof(WritersAtOnce_KeepEachInputOnce)] = static store => store.WritersAtOnce_KeepEachInputOnce(),
        [nameof(Queries_FindWhatFits)] = static store => store.Queries_FindWhatFits(),
        [nameof(Reopened_HasWhatWasKept)] = static store => store.Reopened_HasWhatWasKept(),
        [nameof(LaterSchema_IsRefusedWithWords)] = static store => store.LaterSchema_IsRefusedWithWords(),
        [nameof(DamagedReport_IsSaidSo)] = static store => store.DamagedReport_IsSaidSo(),
        [nameof(HostileWords_AreKept)] = static store => store.HostileWords_AreKept(),
    };

    public static IEnumerable<object[]> Checks => All.Keys.Concat(OfTokens.Keys).Select(static name => new object[] { name });

    private protected Task CheckAsync(string name) => (All.GetValueOrDefault(name) ?? OfTokens[name])(this);

    private async Task WhatIsKept_ComesBackWhole()
    {
        await using IReportStore store = await OpenAsync(await NewPlaceAsync());
        ProductReport report = Report("Tarnholt TH-65", "3", "1.2", Verdict.Fails, "vbus-dropped-out", "vbus-dropped-out", "caution-like");

        long id = await store.SaveAsync("key", report, default);

        (await store.FindAsync(id, default)).Should().Be(report);
        StoredReport entry = (await store.ListAsync(new ReportQuery(), default)).Single();
        (entry.Id, entry.Product, entry.Sample, entry.Firmware, entry.Verdict).Should().Be((id, "Tarnholt TH-65", "3", "1.2", Verdict.Fails));
        entry.Counts.Should().Be(new FindingCounts(3, 0, 0, 0));
        entry.FirstSeen.Should().BeCloseTo(DateTimeOffset.UtcNow, TimeSpan.FromMinutes(5));
        (await store.FindAsync(id + 1, default)).Should().BeNull();
    }

    private async Task SameInput_IsOneEntry_SeenAgain()
    {
        await using IReportStore store = await OpenAsync(await NewPlaceAsync());
        long first = await store.SaveAsync("key", Report("a", "", "", Verdict.Holds), default);
        long other = await store.SaveAsync("other", Report("b", "", "", Verdict.Holds), default);
        long again = await store.SaveAsync("key", Report("a", "", "", Verdict.Holds), default);

        again.Should().Be(first).And.NotBe(other);
        IReadOnlyList<StoredReport> all = await store.ListAsync(new ReportQuery(), default);
        all.Select(entry => entry.Id).Should().Equal(other, first);
        all[1].LastSeen.Should().BeAfter(all[1].FirstSeen);
        all[0].LastSeen.Should().Be(all[0].FirstSeen);
    }

    private async Task WritersAtOnce_KeepEachInputOnce()
    {
        string place = await NewPlaceAsync();
        IReportStore[] stores = await Task.WhenAll(Enumerable.Range(0, 8).Select(_ => Task.Run(() => OpenAsync(place))));

        await Task.WhenAll(stores.Select(store => Task.Run(async () =>
        {
            for (int input = 0; input < 25; input++)
            {
                await store.SaveAsync($"key {input}", Report($"p{input}", "", "", Verdict.Fails, "a-rule"), default);
            }
        })));

        IReadOnlyList<StoredReport> all = await stores[0].ListAsync(new ReportQuery { Rule = "a-rule", Most = 1000 }, default);
        all.Select(entry => entry.Product).Should().OnlyHaveUniqueItems().And.HaveCount(25);
        foreach (IReportStore store in stores)
        {
            await store.DisposeAsync();
        }
    }

    private async Task Queries_FindWhatFits()
    {
        await using IReportStore store = await OpenAsync(await NewPlaceAsync());
        await store.SaveAsync("1", Report("Tarnholt TH-65", "1", "1.0", Verdict.Holds), default);
        await store.SaveAsync("2", Report("Tarnholt TH-65", "2", "1.1", Verdict.Fails, "vbus-dropped-out"), default);
        await store.SaveAsync("3", Report("100%_sure\\", "1", "1.1", Verdict.CannotTell, "edition-open"), default);

        (await FindAsync(new ReportQuery { Product = "th-65" })).Should().Be("2 1");
        (await FindAsync(new ReportQuery { Product = "%" })).Should().Be("3");
        (await FindAsync(new ReportQuery { Product = "_" })).Should().Be("3");
        (await FindAsync(new ReportQuery { Product = "\\" })).Should().Be("3");
        (await FindAsync(new ReportQuery { Product = "' OR 1=1 --" })).Should().Be("");
        (await FindAsync(new ReportQuery { Sample = "1" })).Should().Be("3 1");
        (await FindAsync(new ReportQuery { Firmware = "1.1", Verdict = Verdict.Fails })).Should().Be("2");
        (await FindAsync(new ReportQuery { Rule = "vbus-dropped-out" })).Should().Be("2");
        (await FindAsync(new ReportQuery { Most = 2 })).Should().Be("3 2");
        (await FindAsync(new ReportQuery { Most = 2, Before = 2 })).Should().Be("1");
        (await FindAsync(new ReportQuery { Since = DateTimeOffset.UtcNow.AddHours(-1), Until = DateTimeOffset.UtcNow.AddHours(1) })).Should().Be("3 2 1");
        (await FindAsync(new ReportQuery { Until = DateTimeOffset.UtcNow.AddHours(-1) })).Should().Be("");
        (await FindAsync(new ReportQuery { Since = DateTimeOffset.UtcNow.AddHours(1) })).Should().Be("");

        async Task<string> FindAsync(ReportQuery query) => string.Join(' ', (await store.ListAsync(query, default)).Select(entry => entry.Id));
    }

    // A reopened store has what was kept; one that is opened by many at once is made once.
    private async Task Reopened_HasWhatWasKept()
    {
        string place = await NewPlaceAsync();
        await using (IReportStore store = await OpenAsync(place))
        {
            await store.SaveAsync("key", Report("a", "", "", Verdict.Holds), default);
        }

        await using IReportStore again = await OpenAsync(place);
        (await again.ListAsync(new ReportQuery(), default)).Should().ContainSingle();
    }

    private async Task LaterSchema_IsRefusedWithWords()
    {
        string place = await NewPlaceAsync();
        await (await OpenAsync(place)).DisposeAsync();
        await ExecuteAsync(place, "INSERT INTO schema_version (version) VALUES (99)");

        (await Assert.ThrowsAsync<StoreException>(() => OpenAsync(place))).Message.Should().Contain("later version").And.Contain("99");
    }

    private async Task DamagedReport_IsSaidSo()
    {
        string place = await NewPlaceAsync();
        await using IReportStore store = await OpenAsync(place);
        long id = await store.SaveAsync("key", Report("a", "", "", Verdict.Holds), default);
        await ExecuteAsync(place, $"UPDATE reports SET report = {Bytes}");

        (await Assert.ThrowsAsync<StoreException>(() => store.FindAsync(id, default))).Message.Should().Contain("damaged");
    }

    // Null characters are no text of either database; no word of a report may break it.
    private async Task HostileWords_AreKept()
    {
        await using IReportStore store = await OpenAsync(await NewPlaceAsync());
        ProductReport report = Report("a\0b'; DROP TABLE reports; --\u202e", "\0", "", Verdict.Fails, "r\0'");

        long id = await store.SaveAsync("key", report, default);
        await store.SaveAsync("half a pair", Report("\ud800", "\udc00", "", Verdict.Fails), default);

        (await store.FindAsync(id, default)).Should().Be(report);
        (await store.ListAsync(new ReportQuery { Product = "\ud800", Sample = "\udc00" }, default)).Should().HaveCount(2);
        (await store.ListAsync(new ReportQuery { Sample = "\0'", Firmware = "\0", Rule = "\ud800" }, default)).Should().BeEmpty();
        (await store.ListAsync(new ReportQuery { Product = "drop table" }, default)).Should().ContainSingle();
    }

    /// <summary>0A05FF, which is no report, as the database writes bytes.</summary>
    private protected abstract string Bytes { get; }

    /// <summary>A place that nothing is kept in yet.</summary>
    private protected abstract Task<string> NewPlaceAsync();

    /// <summary>Runs a statement beside the store.</summary>
    private protected abstract Task ExecuteAsync(string place, string statement);

    private protected static Task<IReportStore> OpenAsync(string place) => ReportStores.OpenAsync(place, default);

    private protected static ProductReport Report(string product, string sample, string firmware, Verdict verdict, params string[] rules) => new()
    {
        Product = product, Sample = sample, Firmware = firmware, Verdict = verdict, ToolVersion = "0.1.0",
        Findings = { rules.Select(rule => new Finding { Rule = rule, Severity = Severity.Violation }) },
    };
}
