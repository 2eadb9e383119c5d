namespace Portwitness.Queue;

/// <summary>Opens queues.</summary>
public static class WorkQueues
{
    private static readonly TimeSpan UsualWorkTime = TimeSpan.FromSeconds(30);

    /// <summary>Opens the queue at an address.</summary>
    /// <param name="address">Null or empty for one in this process.</param>
    /// <param name="workTime">After so long without a word of it a key is given to somebody else; null for half a minute.</param>
    /// <exception cref="QueueException">The address cannot be read.</exception>
    public static IWorkQueue Open(string? address, TimeSpan? workTime = null) =>
        string.IsNullOrEmpty(address) ? new InProcessQueue() : new NatsQueue(QueueAddress.Read(address), workTime ?? UsualWorkTime);
}
