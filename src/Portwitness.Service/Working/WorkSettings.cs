namespace Portwitness.Service.Working;

/// <summary>How a node works on what was submitted.</summary>
public sealed record WorkSettings
{
    /// <summary>So many products at once; 0 for a node that only accepts. Default: as many as there are processors.</summary>
    public int AtOnce { get; init; } = Environment.ProcessorCount;

    /// <summary>So often a product is tried before it is set aside. Default 5.</summary>
    public int Tries { get; init; } = 5;

    /// <summary>The pause before the second try; each further one waits twice as long. Default 2 s.</summary>
    public TimeSpan Pause { get; init; } = TimeSpan.FromSeconds(2);

    /// <summary>About how long a product waits when the store failed; each further time twice as long. Default 1 s.</summary>
    public TimeSpan StorePause { get; init; } = TimeSpan.FromSeconds(1);

    /// <summary>About the longest of these pauses. Default 1 min.</summary>
    public TimeSpan LongestStorePause { get; init; } = TimeSpan.FromMinutes(1);

    /// <summary>How long a service that is being stopped tells that it is not ready, and goes on as before, so that balancers see it. Default 0.</summary>
    public TimeSpan Notice { get; init; }

    /// <summary>How long one try may take. Default 1 h.</summary>
    public TimeSpan Time { get; init; } = TimeSpan.FromHours(1);

    /// <summary>How long work that has begun may go on when the node is stopped. Default 30 s.</summary>
    public TimeSpan Drain { get; init; } = TimeSpan.FromSeconds(30);

    /// <summary>How long a report is kept after its input came for the last time. Default null, for ever.</summary>
    public TimeSpan? Retain { get; init; }

    /// <summary>How often a node looks whether something was kept that is in no queue. Default 15 s.</summary>
    public TimeSpan Sweep { get; init; } = TimeSpan.FromSeconds(15);

    /// <summary>The pause before a key is given out again because the store failed: half to one and a half of its step, so that not all come back at once.</summary>
    /// <param name="delivery">The next time it is given out, 2 or more.</param>
    public TimeSpan PauseBeforeDelivery(long delivery)
    {
        double step = StorePause.TotalSeconds * Math.Pow(2, Math.Clamp(delivery - 2, 0, 30));
        return TimeSpan.FromSeconds(Math.Min(step, LongestStorePause.TotalSeconds) * (0.5 + Random.Shared.NextDouble()));
    }
}
