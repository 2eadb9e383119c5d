using Portwitness.Contracts.V1;
using Portwitness.History.Stores;

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
        [nameof(Names_AreFoundInEitherCase)] = static store => store.Names_AreFoundInEitherCase(),
        [nameof(NamesOfAnEarlierVersion_AreFound)] = static store => store.NamesOfAnEarlierVersion_AreFound(),
        [nameof(OldReports_AreDeletedWithAllThatIsTheirs)] = static store => store.OldReports_AreDeletedWithAllThatIsTheirs(),
        [nameof(WhatWasDeletedByHand_LeavesNothingBehind)] = static store => store.WhatWasDeletedByHand_LeavesNothingBehind(),
        [nameof(ManyOldReports_AreDeletedBesideWriters)] = static store => store.ManyOldReports_AreDeletedBesideWriters(),
        [nameof(Reopened_HasWhatWasKept)] = static store => store.Reopened_HasWhatWasKept(),
        [nameof(LaterSchema_IsRefusedWithWords)] = static store => store.LaterSchema_IsRefusedWithWords(),
        [nameof(DamagedReport_IsSaidSo)] = static store => store.DamagedReport_IsSaidSo(),
        [nameof(HostileWords_AreKept)] = static store => store.HostileWords_AreKept(),
        [nameof(Submission_GoesFromQueuedToDone)] = static store => store.Submission_GoesFromQueuedToDone(),
        [nameof(SameSubmission_IsOne_WhoeverSendsIt)] = static store => store.SameSubmission_IsOne_WhoeverSendsIt(),
        [nameof(FailedSubmission_IsTriedAgain_UntilItIsSetAside)] = static store => store.FailedSubmission_IsTriedAgain_UntilItIsSetAside(),
        [nameof(DamagedSubmission_IsSaidSo_AndBeginsAnewWhenSentAgain)] = static store => store.DamagedSubmission_IsSaidSo_AndBeginsAnewWhenSentAgain(),
        [nameof(SubmissionWhoseReportIsGone_BeginsAnewWhenSentAgain)] = static store => store.SubmissionWhoseReportIsGone_BeginsAnewWhenSentAgain(),
        [nameof(QueuedSubmissions_AreFoundByAge)] = static store => store.QueuedSubmissions_AreFoundByAge(),
        [nameof(Submissions_AreListedByPages)] = static store => store.Submissions_AreListedByPages(),
        [nameof(Upload_GoesOnWhereItStopped)] = static store => store.Upload_GoesOnWhereItStopped(),
        [nameof(Upload_ThatIsSomethingElse_IsDropped)] = static store => store.Upload_ThatIsSomethingElse_IsDropped(),
        [nameof(Uploads_OfTwoClients_DoNotMix)] = static store => store.Uploads_OfTwoClients_DoNotMix(),
        [nameof(UploadsThatAreCompletedAtOnce_AllSucceed)] = static store => store.UploadsThatAreCompletedAtOnce_AllSucceed(),
        [nameof(Uploads_AreDropped_WhenNobodyNeedsThem)] = static store => store.Uploads_AreDropped_WhenNobodyNeedsThem(),
        [nameof(Token_IsKnownByItsSecret_WhichIsNotKept)] = static store => store.Token_IsKnownByItsSecret_WhichIsNotKept(),
        [nameof(RevokedAndExpiredTokens_AreNotKnown)] = static store => store.RevokedAndExpiredTokens_AreNotKnown(),
    };

    public static IEnumerable<object[]> Checks => All.Keys.Select(static name => new object[] { name });

    private protected Task CheckAsync(string name) => All[name](this);

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

    // Pairs of Unicode's CaseFolding.txt (16.0.0): 00C4 C 00E4; 00DF F 0073 0073; 1E9E F 0073 0073; 03A3 C 03C3; 03C2 C 03C3; 0417 C 0437; FF21 C FF41;
    // 212A C 006B; 10400 C 10428. Of the Turkish letters, 0130 and 0131 have no folding of status C.
    private async Task Names_AreFoundInEitherCase()
    {
        await using IReportStore store = await OpenAsync(await NewPlaceAsync());
        string[] names = ["Ärger 65", "Tarnholt Straße", "ΟΔΟΣ 20", "Зарядка", "Ａ-Line", "\u212Aelvin", "\U00010400", "İzmir", "Irmak", "ılık"];
        foreach (string name in names)
        {
            await store.SaveAsync(name, Report(name, "", "", Verdict.Holds), default);
        }

        (string Wanted, string Found)[] searches =
        [
            ("ÄRGER", "Ärger 65"), ("ärger", "Ärger 65"), ("rger", "Ärger 65"), ("ARGER", ""),
            ("STRASSE", "Tarnholt Straße"), ("straße", "Tarnholt Straße"), ("STRAẞE", "Tarnholt Straße"), ("ss", "Tarnholt Straße"),
            ("οδος", "ΟΔΟΣ 20"), ("οδοσ", "ΟΔΟΣ 20"), ("ЗАРЯДКА", "Зарядка"), ("ａ-line", "Ａ-Line"), ("KELVIN", "\u212Aelvin"), ("\U00010428", "\U00010400"),
            ("İZMIR", "İzmir"), ("izmir", ""), ("irmak", "Irmak"), ("ırmak", ""), ("ılık", "ılık"), ("ilik", ""), ("ILIK", ""),
        ];
        foreach ((string wanted, string found) in searches)
        {
            string.Join('|', (await store.ListAsync(new ReportQuery { Product = wanted }, default)).Select(static one => one.Product)).Should().Be(found, "of {0}", wanted);
        }
    }

    private async Task NamesOfAnEarlierVersion_AreFound()
    {
        string place = await NewPlaceAsync();
        await using IReportStore store = await OpenAsync(place);
        await store.SaveAsync("1", Report("Ärger", "", "", Verdict.Holds), default);
        await ExecuteAsync(place, "UPDATE reports SET product_folded = NULL");
        await store.SaveAsync("2", Report("ÄRGER", "", "", Verdict.Holds), default);

        (await store.ListAsync(new ReportQuery { Product = "ärger" }, default)).Select(static one => one.Product).Should().Equal("ÄRGER", "Ärger");
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
        await ExecuteAsync(place, Damage);

        (await Assert.ThrowsAsync<StoreException>(() => store.FindAsync(id, default))).Message.Should().Contain("damaged");
    }

    // Null characters are no text of either database; no word of a report may break it.
    private async Task HostileWords_AreKept()
    {
        await using IReportStore store = await OpenAsync(await NewPlaceAsync());
        ProductReport report = Report("a\0b'; DROP TABLE reports; --\u202e", "\0", "", Verdict.Fails, "r\0'");

        long id = await store.SaveAsync("key", report, default);

        (await store.FindAsync(id, default)).Should().Be(report);
        (await store.ListAsync(new ReportQuery { Product = "drop table" }, default)).Should().ContainSingle();
    }

    private protected abstract string Damage { get; }

    private protected abstract string DamageOfSubmissions { get; }

    /// <summary>All that is in the tables, as text: what must not be there can be looked for.</summary>
    private protected abstract Task<string> DumpAsync(string place, string table);

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
