using Portwitness.Contracts.V1;

namespace Portwitness.History.Tests;

/// <summary>What is old.</summary>
public abstract partial class ReportStoreConformance
{
    private static readonly DateTimeOffset Now = DateTimeOffset.UtcNow;

    private async Task OldReports_AreDeletedWithAllThatIsTheirs()
    {
        string place = await NewPlaceAsync();
        await using IReportStore store = await OpenAsync(place);
        (string Key, string Product, Verdict Verdict, int Days)[] all =
        [
            ("1", "Tarnholt Ä", Verdict.Holds, 500), ("2", "Tarnholt B", Verdict.Fails, 500), ("3", "Tarnholt C", Verdict.Holds, 300), ("4", "Tarnholt B", Verdict.Holds, 500),
        ];
        foreach ((string key, string product, Verdict verdict, int days) in all)
        {
            long id = await store.SaveAsync(key, Report(product, "", "", verdict, "a-rule", "b-rule"), default);
            await store.Submissions.AddAsync(key, Request(product, ""), default);
            await store.Submissions.BeginAsync(key, default);
            await store.Submissions.FinishAsync(key, id, default);
            await ExecuteAsync(place, $"UPDATE reports SET last_seen_us = {UnixMicroseconds.Of(Now.AddDays(-days))} WHERE id = {id}");
        }

        await store.Submissions.AddAsync("parked", Request("p", ""), default);
        await store.Submissions.FailAsync("parked", "no", isLast: true, default);
        await store.Submissions.AddAsync("waits", Request("p", ""), default);
        await ExecuteAsync(place, "UPDATE submissions SET changed_us = 0 WHERE state <> 'Done'");
        PruneQuery old = new() { Before = Now.AddDays(-400) };

        (await store.CountPrunableAsync(old, default)).Should().Be(new PrunedRows(3, 4));
        (await store.CountPrunableAsync(old with { KeepFailing = true, Product = "b" }, default)).Should().Be(new PrunedRows(1, 1));
        (await store.PruneAsync(old with { Product = "ä" }, default)).Should().Be(new PrunedRows(1, 1));
        (await store.PruneAsync(old with { KeepFailing = true }, default)).Should().Be(new PrunedRows(1, 2), "with the one that was set aside");
        (await store.ListAsync(new ReportQuery(), default)).Select(static one => one.Product).Should().Equal("Tarnholt C", "Tarnholt B");
        (await store.PruneAsync(old, default)).Should().Be(new PrunedRows(1, 1));
        (await store.PruneAsync(old, default)).Should().Be(new PrunedRows(0, 0));

        (await store.ListAsync(new ReportQuery { Rule = "a-rule" }, default)).Should().ContainSingle().Which.Product.Should().Be("Tarnholt C");
        (await DumpAsync(place, "report_rules")).Split("a-rule").Should().HaveCount(2, "one report is left");
        (await store.Submissions.ListAsync(default, null, 100, default)).Select(static one => one.Submission.Key).Should().Equal("waits", "3");
    }

    // A database's own shell has foreign keys off (SQLite) and knows nothing of submissions.
    private async Task WhatWasDeletedByHand_LeavesNothingBehind()
    {
        string place = await NewPlaceAsync();
        await using IReportStore store = await OpenAsync(place);
        await store.Submissions.AddAsync("key", Request("p", ""), default);
        await store.Submissions.FinishAsync("key", await store.SaveAsync("1", Report("a", "", "", Verdict.Fails, "a-rule"), default), default);
        await ExecuteAsync(place, "DELETE FROM reports");
        PruneQuery query = new() { Before = Now.AddDays(-400) };

        (await store.CountPrunableAsync(query, default)).Should().Be(new PrunedRows(0, 1));
        (await store.PruneAsync(query, default)).Should().Be(new PrunedRows(0, 1));

        (await DumpAsync(place, "report_rules") + await DumpAsync(place, "submissions")).Should().BeEmpty();
    }

    private async Task ManyOldReports_AreDeletedBesideWriters()
    {
        string place = await NewPlaceAsync();
        await using IReportStore store = await OpenAsync(place);
        for (int number = 0; number < 500; number++)
        {
            await store.SaveAsync($"old {number}", Report("old", "", "", Verdict.Holds, "a-rule"), default);
        }

        await ExecuteAsync(place, "UPDATE reports SET last_seen_us = 0");
        await using IReportStore other = await OpenAsync(place);
        Task writing = Task.Run(async () =>
        {
            for (int number = 0; number < 50; number++)
            {
                await other.SaveAsync($"new {number}", Report("new", "", "", Verdict.Holds, "a-rule"), default);
            }
        });

        PrunedRows pruned = await store.PruneAsync(new PruneQuery { Before = Now.AddDays(-1) }, default);
        await writing;

        pruned.Should().Be(new PrunedRows(500, 0));
        (await store.ListAsync(new ReportQuery { Rule = "a-rule", Most = 1000 }, default)).Should().HaveCount(50).And.OnlyContain(static one => one.Product == "new");
    }
}
