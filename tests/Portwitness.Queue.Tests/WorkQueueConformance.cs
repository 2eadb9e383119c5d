using System.Collections.Concurrent;

namespace Portwitness.Queue.Tests;

/// <summary>What every queue does. Each kind runs the same tests.</summary>
public abstract class WorkQueueConformance
{
    private static readonly TimeSpan Enough = TimeSpan.FromSeconds(60);

    private static readonly Dictionary<string, Func<WorkQueueConformance, Task>> All = new()
    {
        [nameof(WhatIsDone_ComesOnce)] = static queue => queue.WhatIsDone_ComesOnce(),
        [nameof(GivenBack_ComesAgainAfterThePause)] = static queue => queue.GivenBack_ComesAgainAfterThePause(),
        [nameof(ManyWorkers_TakeEachKey)] = static queue => queue.ManyWorkers_TakeEachKey(),
        [nameof(Waiting_CanBeStopped)] = static queue => queue.Waiting_CanBeStopped(),
        [nameof(Count_IsOfWhatWaitsAndWhatIsWorkedOn)] = static queue => queue.Count_IsOfWhatWaitsAndWhatIsWorkedOn(),
        [nameof(DoneKeys_CanBeAddedAgain)] = static queue => queue.DoneKeys_CanBeAddedAgain(),
        [nameof(KeysThatAreThere_AreNotAddedTwice)] = static queue => queue.KeysThatAreThere_AreNotAddedTwice(),
        [nameof(StillWorking_IsTakenInAnyState)] = static queue => queue.StillWorking_IsTakenInAnyState(),
    };

    public static IEnumerable<object[]> Checks => All.Keys.Select(static name => new object[] { name });

    private protected Task CheckAsync(string name) => All[name](this);

    private protected abstract IWorkQueue Open();

    private static CancellationToken InTime => new CancellationTokenSource(Enough).Token;

    private async Task WhatIsDone_ComesOnce()
    {
        await using IWorkQueue queue = Open();
        foreach (string key in new[] { "a", "b", "c" })
        {
            await queue.AddAsync(key, InTime);
        }

        List<string> taken = [];
        for (int index = 0; index < 3; index++)
        {
            WorkItem item = await queue.TakeAsync(InTime);
            taken.Add(item.Key);
            await item.DoneAsync(InTime);
        }

        taken.Should().BeEquivalentTo("a", "b", "c");
        (await queue.CountWaitingAsync(InTime)).Should().Be(0);
    }

    private async Task GivenBack_ComesAgainAfterThePause()
    {
        await using IWorkQueue queue = Open();
        await queue.AddAsync("a", InTime);
        long begun = TimeProvider.System.GetTimestamp();
        await (await queue.TakeAsync(InTime)).AgainAsync(TimeSpan.FromMilliseconds(300), InTime);

        WorkItem again = await queue.TakeAsync(InTime);

        (again.Key, again.Delivery).Should().Be(("a", 2));
        TimeProvider.System.GetElapsedTime(begun).Should().BeGreaterThan(TimeSpan.FromMilliseconds(290));
        await again.DoneAsync(InTime);
        (await queue.CountWaitingAsync(InTime)).Should().Be(0);
    }

    private async Task ManyWorkers_TakeEachKey()
    {
        const int Keys = 2000;
        await using IWorkQueue queue = Open();
        ConcurrentDictionary<string, int> taken = new();
        using CancellationTokenSource stop = new(Enough);
        Task[] workers = [.. Enumerable.Range(0, 8).Select(_ => Task.Run(async () =>
        {
            while (taken.Count < Keys)
            {
                WorkItem item = await queue.TakeAsync(stop.Token);
                taken.AddOrUpdate(item.Key, 1, static (_, times) => times + 1);
                await item.DoneAsync(InTime);
            }

            await stop.CancelAsync();
        }))];

        await Parallel.ForEachAsync(Enumerable.Range(0, Keys), async (number, _) => await queue.AddAsync($"key{number}", InTime));
        await Task.WhenAll(workers).ContinueWith(static _ => { }, TaskScheduler.Default);

        taken.Should().HaveCount(Keys).And.OnlyContain(static one => one.Value == 1);
        (await queue.CountWaitingAsync(InTime)).Should().Be(0);
    }

    private async Task Waiting_CanBeStopped()
    {
        await using IWorkQueue queue = Open();
        using CancellationTokenSource stop = new(TimeSpan.FromMilliseconds(200));

        Func<Task> wait = () => queue.TakeAsync(stop.Token);

        await wait.Should().ThrowAsync<OperationCanceledException>();
    }

    private async Task Count_IsOfWhatWaitsAndWhatIsWorkedOn()
    {
        await using IWorkQueue queue = Open();
        (await queue.CountWaitingAsync(InTime)).Should().Be(0);
        await queue.AddAsync("a", InTime);
        await queue.AddAsync("b", InTime);
        WorkItem item = await queue.TakeAsync(InTime);

        (await queue.CountWaitingAsync(InTime)).Should().Be(2);

        await item.DoneAsync(InTime);
        (await queue.CountWaitingAsync(InTime)).Should().Be(1);
    }

    private async Task DoneKeys_CanBeAddedAgain()
    {
        await using IWorkQueue queue = Open();
        for (int index = 0; index < 2; index++)
        {
            await queue.AddAsync("a", InTime);
            WorkItem item = await queue.TakeAsync(InTime);
            item.Key.Should().Be("a");
            await item.DoneAsync(InTime);
        }
    }

    // Whoever looks after the queue adds all that the store has, again and again: it holds each key once.
    private async Task KeysThatAreThere_AreNotAddedTwice()
    {
        await using IWorkQueue queue = Open();
        (await queue.AddAsync("a", InTime)).Should().BeTrue();
        (await queue.AddAsync("a", InTime)).Should().BeFalse("it waits");
        (await queue.AddAsync("b", InTime)).Should().BeTrue();

        WorkItem first = await queue.TakeAsync(InTime);
        (await queue.AddAsync(first.Key, InTime)).Should().BeFalse("it is being worked on");
        (first.Key, first.Delivery).Should().Be(("a", 1));
        (await queue.CountWaitingAsync(InTime)).Should().Be(2);

        await first.DoneAsync(InTime);
        (await queue.AddAsync("a", InTime)).Should().BeTrue("it was done");
        (await queue.CountWaitingAsync(InTime)).Should().Be(2);
    }

    private async Task StillWorking_IsTakenInAnyState()
    {
        await using IWorkQueue queue = Open();
        await queue.AddAsync("a", InTime);
        WorkItem item = await queue.TakeAsync(InTime);
        await item.StillWorkingAsync(InTime);
        await item.DoneAsync(InTime);

        (await queue.CountWaitingAsync(InTime)).Should().Be(0);
    }
}
