using Portwitness.Contracts.V1;

namespace Portwitness.History.Tests;

/// <summary>What is submitted.</summary>
public abstract partial class ReportStoreConformance
{
    private async Task Submission_GoesFromQueuedToDone()
    {
        await using IReportStore store = await OpenAsync(await NewPlaceAsync());
        SubmitRequest request = Request("a/product.yaml", "5V 3A");

        Submission added = await store.Submissions.AddAsync("key", request, default);
        (SubmitRequest Request, int Try)? begun = await store.Submissions.BeginAsync("key", default);
        await store.Submissions.FinishAsync("key", 17, default);

        (added.State, added.Name, added.Tries, added.Key).Should().Be((SubmissionState.Queued, "a/product.yaml", 0, "key"));
        begun!.Value.Request.Should().Be(request);
        begun.Value.Try.Should().Be(1);
        Submission done = (await store.Submissions.FindAsync("key", default))!;
        (done.State, done.ReportId, done.Tries, done.Problem).Should().Be((SubmissionState.Done, 17, 1, ""));
        (await store.Submissions.BeginAsync("key", default)).Should().BeNull("it is done");
        (await store.Submissions.BeginAsync("other", default)).Should().BeNull("it is not there");
        (await store.Submissions.FindAsync("other", default)).Should().BeNull();
        (await store.Submissions.CountAsync(SubmissionState.Done, default)).Should().Be(1);
    }

    private async Task SameSubmission_IsOne_WhoeverSendsIt()
    {
        string place = await NewPlaceAsync();
        IReportStore[] stores = await Task.WhenAll(Enumerable.Range(0, 4).Select(_ => Task.Run(() => OpenAsync(place))));

        await Task.WhenAll(stores.Select(store => Task.Run(async () =>
        {
            for (int index = 0; index < 20; index++)
            {
                await store.Submissions.AddAsync($"key{index}", Request("p", $"{index}"), default);
            }
        })));

        (await stores[0].Submissions.CountAsync(SubmissionState.Queued, default)).Should().Be(20);
        (await stores[0].Submissions.AddAsync("key0", Request("another name", "0"), default)).Name.Should().Be("p");
        foreach (IReportStore store in stores)
        {
            await store.DisposeAsync();
        }
    }

    private async Task FailedSubmission_IsTriedAgain_UntilItIsSetAside()
    {
        await using IReportStore store = await OpenAsync(await NewPlaceAsync());
        ISubmissionStore submissions = store.Submissions;
        await submissions.AddAsync("key", Request("p", ""), default);

        await submissions.BeginAsync("key", default);
        await submissions.FailAsync("key", "a\0b", isLast: false, default);
        Submission failed = (await submissions.FindAsync("key", default))!;
        await submissions.BeginAsync("key", default);
        await submissions.ReleaseAsync("key", default);
        (await submissions.BeginAsync("key", default))!.Value.Try.Should().Be(2, "the try before was taken back");
        await submissions.FailAsync("key", "c", isLast: true, default);

        (failed.State, failed.Problem).Should().Be((SubmissionState.Queued, "a\ufffdb"));
        Submission parked = (await submissions.FindAsync("key", default))!;
        (parked.State, parked.Problem, parked.Tries).Should().Be((SubmissionState.Parked, "c", 2));
        (await submissions.BeginAsync("key", default)).Should().BeNull("it is set aside");
        (await submissions.AddAsync("key", Request("p", ""), default)).State.Should().Be(SubmissionState.Parked, "sending it again is no remedy");
        (await submissions.RetryAsync("key", default)).Should().BeTrue();
        (await submissions.RetryAsync("key", default)).Should().BeFalse();
        (await submissions.BeginAsync("key", default))!.Value.Try.Should().Be(1);
    }

    private async Task DamagedSubmission_IsSaidSo_AndBeginsAnewWhenSentAgain()
    {
        string place = await NewPlaceAsync();
        await using IReportStore store = await OpenAsync(place);
        ISubmissionStore submissions = store.Submissions;
        SubmitRequest request = Request("p", "");
        request.Files.Add(new SubmittedFile { File = "f", Sha256 = Hash });
        await submissions.AddAsync("key", request, default);
        await ExecuteAsync(place, DamageOfSubmissions);

        StoreException damaged = await Assert.ThrowsAsync<StoreException>(() => submissions.BeginAsync("key", default));
        (await submissions.IsLostAsync("key", default)).Should().BeFalse("nobody has given it up");
        await submissions.LoseAsync("key", damaged.Message, default);

        (damaged.IsDamaged, damaged.IsUnreachable).Should().Be((true, false));
        Submission lost = (await submissions.FindAsync("key", default))!;
        (lost.State, lost.Problem).Should().Be((SubmissionState.Parked, damaged.Message));
        (await submissions.RetryAsync("key", default)).Should().BeFalse("there is nothing to try");
        (await submissions.IsLostAsync("key", default)).Should().BeTrue();
        Submission again = await submissions.AddAsync("key", request, default);
        (again.State, again.Tries, again.Problem).Should().Be((SubmissionState.Queued, 0, ""));
        (await submissions.BeginAsync("key", default))!.Value.Request.Should().Be(request);
    }

    private async Task SubmissionWhoseReportIsGone_BeginsAnewWhenSentAgain()
    {
        string place = await NewPlaceAsync();
        await using IReportStore store = await OpenAsync(place);
        ISubmissionStore submissions = store.Submissions;
        await submissions.AddAsync("key", Request("p", ""), default);
        await submissions.BeginAsync("key", default);
        await submissions.FinishAsync("key", await store.SaveAsync("input", Report("p", "", "", Verdict.Holds, "a-rule"), default), default);

        (await submissions.IsLostAsync("key", default)).Should().BeFalse();
        (await submissions.AddAsync("key", Request("p", ""), default)).State.Should().Be(SubmissionState.Done);
        await ExecuteAsync(place, "DELETE FROM reports");

        (await submissions.IsLostAsync("key", default)).Should().BeTrue();
        Submission again = await submissions.AddAsync("key", Request("p", ""), default);
        (again.State, again.Tries, again.ReportId).Should().Be((SubmissionState.Queued, 0, 0));
        (await submissions.BeginAsync("key", default))!.Value.Try.Should().Be(1);
    }

    private async Task QueuedSubmissions_AreFoundByAge()
    {
        await using IReportStore store = await OpenAsync(await NewPlaceAsync());
        for (int index = 0; index < 5; index++)
        {
            await store.Submissions.AddAsync($"key{index}", Request("p", ""), default);
        }

        await store.Submissions.FinishAsync("key1", 1, default);
        DateTimeOffset now = DateTimeOffset.UtcNow.AddSeconds(1);

        IReadOnlyList<(long Number, string Key)> first = await store.Submissions.ListQueuedAsync(now, 0, 3, default);
        IReadOnlyList<(long Number, string Key)> rest = await store.Submissions.ListQueuedAsync(now, first[^1].Number, 3, default);

        first.Concat(rest).Select(static one => one.Key).Should().Equal("key0", "key2", "key3", "key4");
        (await store.Submissions.ListQueuedAsync(now.AddHours(-1), 0, 3, default)).Should().BeEmpty();
    }

    private async Task Submissions_AreListedByPages()
    {
        await using IReportStore store = await OpenAsync(await NewPlaceAsync());
        for (int index = 0; index < 5; index++)
        {
            await store.Submissions.AddAsync($"key{index}", Request("p", ""), default);
        }

        await store.Submissions.FinishAsync("key2", 1, default);

        IReadOnlyList<(long Number, Submission Submission)> first = await store.Submissions.ListAsync(default, null, 3, default);
        IReadOnlyList<(long Number, Submission Submission)> rest = await store.Submissions.ListAsync(default, first[^1].Number, 3, default);
        first.Concat(rest).Select(static one => one.Submission.Key).Should().Equal("key4", "key3", "key2", "key1", "key0");
        (await store.Submissions.ListAsync(SubmissionState.Done, null, 3, default)).Should().ContainSingle().Which.Submission.Key.Should().Be("key2");
    }

    private static SubmitRequest Request(string file, string text) => new() { Options = new CheckOptions { Product = new ProductFile { File = file, Text = text } } };
}
