namespace Portwitness.Queue;

/// <summary>Opens queues.</summary>
public static class WorkQueues
{
    /// <summary>Opens the queue at an address.</summary>
    /// <param name="address">Null or empty for one in this process.</param>
    /// <exception cref="QueueException">The address cannot be read.</exception>
    public static IWorkQueue Open(string? address) => string.IsNullOrEmpty(address) ? new InProcessQueue()
        : throw new QueueException("--queue: the address cannot be read; expected nats://host:port.");
}
