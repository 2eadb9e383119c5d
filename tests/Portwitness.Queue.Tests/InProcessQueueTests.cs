namespace Portwitness.Queue.Tests;

/// <summary>The queue of one process.</summary>
public sealed class InProcessQueueTests : WorkQueueConformance
{
    [Theory]
    [MemberData(nameof(Checks))]
    public Task Queue_Conforms(string check) => CheckAsync(check);

    [Fact]
    public async Task KeysThatWait_AreNotAddedTwice()
    {
        await using InProcessQueue queue = new();
        for (int index = 0; index < 1000; index++)
        {
            await queue.AddAsync("a", default);
        }

        (await queue.CountWaitingAsync(default)).Should().Be(1);
    }

    private protected override IWorkQueue Open() => WorkQueues.Open(null);
}
