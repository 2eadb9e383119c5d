using Portwitness.PowerDelivery.Limits;

namespace Portwitness.Following.Links;

/// <summary>How long a sender waits for a GoodCRC, and then takes to send again.</summary>
public static class RetryTimes
{
    /// <summary>tReceive, at least.</summary>
    public static readonly long LeastReceiveUs = TimingLimits.ShortestUs(TimingLimits.TReceive);

    /// <summary>tReceive, at most.</summary>
    public static readonly long MaxReceiveUs = TimingLimits.LongestUs(TimingLimits.TReceive);

    /// <summary>tRetry, at most.</summary>
    public static readonly long MaxRetryUs = TimingLimits.LongestUs(TimingLimits.TRetry);
}
