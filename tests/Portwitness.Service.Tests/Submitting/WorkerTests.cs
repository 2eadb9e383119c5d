using Grpc.Core;
using Portwitness.Contracts.V1;
using Portwitness.History;
using Portwitness.Queue;
using Portwitness.Service.Working;

namespace Portwitness.Service.Tests.Submitting;

/// <summary>What nodes do with submissions when something goes wrong.</summary>
public sealed class WorkerTests
{
    [Fact]
    public async Task ProductThatCannotBeJudged_IsSetAsideWithItsProblem_AndCanBeTriedAgain()
    {
        await using SubmittingService service = await SubmittingService.StartAsync();

        // What the file was uploaded as is gone: no try can succeed.
        string hash = new('a', 64);
        SubmitRequest request = SubmittingService.Demo("clean-th65");
        request.Files[0] = new SubmittedFile { File = request.Files[0].File, Sha256 = hash };
        await service.Store.Submissions.AddAsync(new string('1', 64), request, default);

        Submission parked = await service.WaitForAsync(new string('1', 64), SubmissionState.Parked);
        Submission good = await service.Client.SubmitAsync(SubmittingService.Demo("clean-th65"));
        await service.WaitForAsync(good.Key);
        Submission again = await service.Client.RetrySubmissionAsync(new RetrySubmissionRequest { Key = parked.Key });
        Submission parkedAgain = await service.WaitForAsync(parked.Key, SubmissionState.Parked);

        (parked.Tries, parkedAgain.Tries, again.State).Should().Be((5, 5, SubmissionState.Queued));
        parked.Problem.Should().Contain(hash).And.Contain("not uploaded");
        (await service.Client.RetrySubmissionAsync(new RetrySubmissionRequest { Key = good.Key })).State.Should().Be(SubmissionState.Done, "what is done stays done");
    }

    [Fact]
    public async Task ProcessThatDiedEachTime_IsTheProductsProblem()
    {
        await using SubmittingService service = await SubmittingService.StartAsync(new WorkSettings { AtOnce = 0 });
        Submission submission = await service.Client.SubmitAsync(SubmittingService.Demo("clean-th65"));
        for (int death = 0; death < 5; death++)
        {
            await service.Store.Submissions.BeginAsync(submission.Key, default);
        }

        await service.StopNodeAsync();
        await service.StartNodeAsync(SubmittingService.Quick);

        (await service.WaitForAsync(submission.Key, SubmissionState.Parked)).Problem.Should().Contain("ended each time");
    }

    [Fact]
    public async Task StoppedNode_FinishesWhatItBegan_AndTheNextOneDoesTheRest()
    {
        await using SubmittingService service = await SubmittingService.StartAsync();
        string[] editions = ["", "R2.0", "R3.0", "R3.1", "R3.2"];
        List<string> keys = [];
        foreach (string folder in new[] { "clean-th65", "broken-tp20", "weak-tp10", "shared-tb65" })
        {
            foreach (string edition in editions)
            {
                keys.Add((await service.Client.SubmitAsync(SubmittingService.Demo(folder, edition))).Key);
            }
        }

        await service.StopNodeAsync();
        await service.StartNodeAsync(SubmittingService.Quick);

        Submission[] done = await Task.WhenAll(keys.Select(key => service.WaitForAsync(key)));
        done.Should().OnlyContain(static one => one.Tries == 1, "what had begun was finished");
        done.Select(static one => one.ReportId).Should().OnlyHaveUniqueItems();
        (await service.Store.ListAsync(new ReportQuery { Most = 100 }, default)).Should().HaveCount(keys.Count);
    }

    [Fact]
    public async Task WorkThatTakesLongerThanTheDrain_IsGivenBackUncounted()
    {
        WorkSettings slow = SubmittingService.Quick with { AtOnce = 1, Drain = TimeSpan.Zero };
        await using SubmittingService service = await SubmittingService.StartAsync(slow with { AtOnce = 0 });
        Submission submission = await service.Client.SubmitAsync(SubmittingService.Demo("clean-th65"));
        await service.StopNodeAsync();

        // With no time to drain some starts are broken off, some are not; never is a try lost to it.
        for (int start = 0; start < 5; start++)
        {
            await service.StartNodeAsync(slow);
            await service.StopNodeAsync();
        }

        await service.StartNodeAsync(SubmittingService.Quick);
        (await service.WaitForAsync(submission.Key)).Tries.Should().BeLessThan(5);
    }

    [Fact]
    public async Task TwoNodesOfOneQueue_ReportEachProductOnce_EvenWhenItComesTwice()
    {
        await using SubmittingService service = await SubmittingService.StartAsync(new WorkSettings { AtOnce = 0 });
        List<string> keys = [];
        foreach (string folder in new[] { "clean-th65", "broken-tp20", "weak-tp10" })
        {
            keys.Add((await service.Client.SubmitAsync(SubmittingService.Demo(folder))).Key);
        }

        await service.StopNodeAsync();
        await using TwiceQueue twice = new();
        await service.StartNodeAsync(SubmittingService.Quick with { AtOnce = 4 }, queue: twice);
        foreach (string key in keys.Concat(keys))
        {
            await twice.AddAsync(key, default);
        }

        Submission[] done = await Task.WhenAll(keys.Select(key => service.WaitForAsync(key)));
        while (await twice.CountWaitingAsync(default) > 0)
        {
            await Task.Delay(20);
        }

        (await service.Store.ListAsync(new ReportQuery(), default)).Select(static one => one.Id).Should().BeEquivalentTo(done.Select(static one => one.ReportId));
    }

    [Fact]
    public async Task RetryOfWhatIsUnknown_IsNotFound()
    {
        await using SubmittingService service = await SubmittingService.StartAsync();

        (await service.RefusalOfAsync(async client => await client.RetrySubmissionAsync(new RetrySubmissionRequest { Key = new string('0', 64) })))
            .StatusCode.Should().Be(StatusCode.NotFound);
    }

    /// <summary>Gives every key as often as it is added, as a broker does that missed an acknowledgement.</summary>
    private sealed class TwiceQueue : IWorkQueue
    {
        private readonly System.Threading.Channels.Channel<string> _keys = System.Threading.Channels.Channel.CreateUnbounded<string>();
        private int _count;

        public string Place => "a test";

        public async Task<bool> AddAsync(string key, CancellationToken cancellation)
        {
            Interlocked.Increment(ref _count);
            await _keys.Writer.WriteAsync(key, cancellation);
            return true;
        }

        public async Task<WorkItem> TakeAsync(CancellationToken cancellation) => new Item(this, await _keys.Reader.ReadAsync(cancellation));

        public Task<long> CountWaitingAsync(CancellationToken cancellation) => Task.FromResult((long)Volatile.Read(ref _count));

        public ValueTask DisposeAsync() => ValueTask.CompletedTask;

        private sealed class Item(TwiceQueue queue, string key) : WorkItem
        {
            public override string Key => key;

            public override long Delivery => 1;

            public override Task DoneAsync(CancellationToken cancellation)
            {
                Interlocked.Decrement(ref queue._count);
                return Task.CompletedTask;
            }

            public override async Task AgainAsync(TimeSpan pause, CancellationToken cancellation)
            {
                Interlocked.Decrement(ref queue._count);
                await queue.AddAsync(key, cancellation);
            }

            public override Task StillWorkingAsync(CancellationToken cancellation) => Task.CompletedTask;
        }
    }
}
