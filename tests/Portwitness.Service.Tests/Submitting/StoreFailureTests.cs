using Microsoft.Data.Sqlite;
using Portwitness.Contracts.V1;
using Portwitness.Queue;
using Portwitness.Service.Working;

namespace Portwitness.Service.Tests.Submitting;

/// <summary>What becomes of accepted submissions when the store fails under the worker, and when the queue holds what is no work.</summary>
public sealed class StoreFailureTests
{
    private static readonly string Key = new('1', 64);

    [Theory]
    [InlineData(nameof(FailingStore.BeginAsync))]
    [InlineData(nameof(FailingStore.SaveAsync))]
    [InlineData(nameof(FailingStore.FinishAsync))]
    [InlineData(nameof(FailingStore.SaveAsync), nameof(FailingStore.ReleaseAsync))]
    [InlineData(nameof(FailingStore.BeginAsync), nameof(FailingStore.CountAsync), nameof(FailingStore.ListQueuedAsync))]
    public async Task StoreThatFailsForAWhile_GivesTheProductBack_AndItIsNoFaultOfIt(params string[] methods)
    {
        const int Times = 7;
        FailingStore failing = null!;
        await using SubmittingService service = await SubmittingService.StartAsync(
            SubmittingService.Quick with { AtOnce = 1 }, wrap: store => failing = new FailingStore(store));
        foreach (string method in methods)
        {
            failing.Fail(method, Times);
        }

        Submission queued = await service.Client.SubmitAsync(SubmittingService.Demo("clean-th65"));
        Submission done = await service.WaitForAsync(queued.Key);

        done.Problem.Should().BeEmpty("seven failures of the store are more than the five tries that a product has");
        await Access.Eventually.BeAsync(() => Task.FromResult(Array.TrueForAll(methods, method => failing.Left(method) == 0)));
        (await service.WaitForAsync(queued.Key)).ReportId.Should().Be(done.ReportId);
        (await service.Client.GetReportAsync(new GetReportRequest { Id = done.ReportId })).Verdict.Should().Be(Verdict.Holds);
    }

    [Fact]
    public async Task ProductWhoseProblemCannotBeKept_IsJudgedAgain_AndSetAsideWithThatProblem()
    {
        FailingStore failing = null!;
        await using SubmittingService service = await SubmittingService.StartAsync(wrap: store => failing = new FailingStore(store));
        failing.Fail(nameof(FailingStore.FailAsync), 8);
        SubmitRequest request = SubmittingService.Demo("clean-th65");
        request.Files[0] = new SubmittedFile { File = request.Files[0].File, Sha256 = new string('a', 64) };
        await service.Store.Submissions.AddAsync(Key, request, default);

        Submission parked = await service.WaitForAsync(Key, SubmissionState.Parked);

        (parked.Tries, parked.Problem).Should().Be((5, $"{new string('a', 64)} was not uploaded, or was dropped since; upload it again."));
    }

    [Fact]
    public async Task FaultThatNobodyForesaw_EndsNoWorker()
    {
        FailingStore failing = null!;
        await using SubmittingService service = await SubmittingService.StartAsync(
            SubmittingService.Quick with { AtOnce = 1 }, wrap: store => failing = new FailingStore(store));
        failing.Failure = static () => new InvalidCastException("a row that cannot be read");
        failing.Fail(nameof(FailingStore.BeginAsync), 3);
        failing.Fail(nameof(FailingStore.CountAsync), 3);

        await service.WaitForAsync((await service.Client.SubmitAsync(SubmittingService.Demo("clean-th65"))).Key);
        await service.WaitForAsync((await service.Client.SubmitAsync(SubmittingService.Demo("broken-tp20"))).Key);
    }

    [Fact]
    public async Task SubmissionThatCannotBeRead_IsSetAsideWithWords_AndTheNextOneIsJudged()
    {
        await using SubmittingService service = await SubmittingService.StartAsync(new WorkSettings { AtOnce = 0 });
        Submission damaged = await service.Client.SubmitAsync(SubmittingService.Demo("clean-th65"));
        Submission good = await service.Client.SubmitAsync(SubmittingService.Demo("broken-tp20"));
        await using (SqliteConnection connection = new($"Data Source={service.Database}"))
        {
            await connection.OpenAsync();
            await using SqliteCommand damage = new($"UPDATE submissions SET request = X'0A05FF' WHERE key = '{damaged.Key}'", connection);
            (await damage.ExecuteNonQueryAsync()).Should().Be(1);
        }

        await service.StopNodeAsync();
        await service.StartNodeAsync(SubmittingService.Quick with { AtOnce = 1 });

        await service.WaitForAsync(good.Key);
        Submission parked = await service.WaitForAsync(damaged.Key, SubmissionState.Parked);
        parked.Problem.Should().Contain("damaged").And.Contain("submit it again");
        (await service.Client.SubmitAsync(SubmittingService.Demo("clean-th65"))).State.Should().Be(SubmissionState.Queued);
        await service.WaitForAsync(damaged.Key);
    }

    [Fact]
    public async Task SubmissionWhoseReportIsGone_IsJudgedAgainWhenItComesAgain()
    {
        await using SubmittingService service = await SubmittingService.StartAsync();
        Submission first = await service.WaitForAsync((await service.Client.SubmitAsync(SubmittingService.Demo("clean-th65"))).Key);
        await using (SqliteConnection connection = new($"Data Source={service.Database}"))
        {
            await connection.OpenAsync();
            await using SqliteCommand delete = new("DELETE FROM reports", connection);
            await delete.ExecuteNonQueryAsync();
        }

        (await service.Client.SubmitAsync(SubmittingService.Demo("clean-th65"))).State.Should().Be(SubmissionState.Queued);

        Submission again = await service.WaitForAsync(first.Key);
        again.ReportId.Should().NotBe(first.ReportId);
        (await service.Client.GetReportAsync(new GetReportRequest { Id = again.ReportId })).Product.Should().NotBeEmpty();
    }

    [Fact]
    public async Task ReportsOlderThanTheyAreKept_AreDeletedByTheService()
    {
        await using SubmittingService service = await SubmittingService.StartAsync();
        Submission done = await service.WaitForAsync((await service.Client.SubmitAsync(SubmittingService.Demo("clean-th65"))).Key);
        await service.StopNodeAsync();
        await service.StartNodeAsync(SubmittingService.Quick with { Retain = TimeSpan.FromDays(1) });
        Submission recent = await service.WaitForAsync((await service.Client.SubmitAsync(SubmittingService.Demo("broken-tp20"))).Key);
        (await service.Store.FindAsync(done.ReportId, default)).Should().NotBeNull("it is new");

        await service.StopNodeAsync();
        await Task.Delay(1100);
        await service.StartNodeAsync(SubmittingService.Quick with { Retain = TimeSpan.FromSeconds(1) });

        await Access.Eventually.BeAsync(async () => await service.Store.FindAsync(done.ReportId, default) is null && await service.Store.FindAsync(recent.ReportId, default) is null);
        (await service.Store.Submissions.CountAsync(SubmissionState.Done, default)).Should().Be(0);
    }

    // What else lies in the queue must not hide what is missing there.
    [Fact]
    public async Task KeyThatTheQueueLost_ComesBack_ThoughTheQueueIsNeverEmpty()
    {
        await using SubmittingService service = await SubmittingService.StartAsync(new WorkSettings { AtOnce = 0 });
        await service.StopNodeAsync();
        ForgetfulQueue queue = new();
        await service.StartNodeAsync(SubmittingService.Quick with { Sweep = TimeSpan.FromMilliseconds(20) }, queue: queue);

        Submission submission = await service.Client.SubmitAsync(SubmittingService.Demo("clean-th65"));

        await service.WaitForAsync(submission.Key);
        queue.Forgotten.Should().Be(1);
    }

    [Fact]
    public void Pauses_Grow_UpToTheirLimit_AndDiffer()
    {
        WorkSettings settings = new() { StorePause = TimeSpan.FromSeconds(1), LongestStorePause = TimeSpan.FromSeconds(60) };
        foreach ((long delivery, double step) in new[] { (2, 1.0), (3, 2.0), (5, 8.0), (9, 60.0), (long.MaxValue, 60.0) })
        {
            double[] pauses = [.. Enumerable.Range(0, 200).Select(_ => settings.PauseBeforeDelivery(delivery).TotalSeconds)];

            pauses.Should().OnlyContain(pause => pause >= step / 2 && pause <= step * 1.5);
            pauses.Distinct().Should().HaveCountGreaterThan(10);
        }
    }

    /// <summary>Forgets the first key that it is given, and always holds something that nobody is ever given.</summary>
    private sealed class ForgetfulQueue : IWorkQueue
    {
        private readonly InProcessQueue _inner = new();

        public int Forgotten { get; private set; }

        public string Place => "a test";

        public Task<bool> AddAsync(string key, CancellationToken cancellation)
        {
            if (Forgotten > 0)
            {
                return _inner.AddAsync(key, cancellation);
            }

            Forgotten++;
            return Task.FromResult(true);
        }

        public Task<WorkItem> TakeAsync(CancellationToken cancellation) => _inner.TakeAsync(cancellation);

        public async Task<long> CountWaitingAsync(CancellationToken cancellation) => await _inner.CountWaitingAsync(cancellation) + 5;

        public ValueTask DisposeAsync() => _inner.DisposeAsync();
    }
}
