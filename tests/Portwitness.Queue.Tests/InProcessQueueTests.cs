namespace Portwitness.Queue.Tests;

/// <summary>The queue of one process.</summary>
public sealed class InProcessQueueTests : WorkQueueConformance
{
    [Theory]
    [MemberData(nameof(Checks))]
    public Task Queue_Conforms(string check) => CheckAsync(check);

    private protected override IWorkQueue Open() => WorkQueues.Open(null);
}
