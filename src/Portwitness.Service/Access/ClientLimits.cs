using System.Threading.RateLimiting;
using Grpc.Core;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.RateLimiting;
using Portwitness.Service.Telemetry;
using Portwitness.Service.Validation;

namespace Portwitness.Service.Access;

/// <summary>What each client may do at once and in a second. A client is a token, a certificate, or where it comes from.</summary>
internal static class ClientLimits
{
    private static readonly TimeSpan WhileOthersEnd = TimeSpan.FromSeconds(1);

    /// <summary>Sets the limits.</summary>
    public static void Configure(RateLimiterOptions options, ServiceLimits limits)
    {
        options.GlobalLimiter = PartitionedRateLimiter.CreateChained(
            PartitionedRateLimiter.Create<HttpContext, string>(context => RateLimitPartition.GetTokenBucketLimiter(Clients.NameOf(context), _ => new TokenBucketRateLimiterOptions
            {
                TokenLimit = 2 * limits.CallsPerSecond, TokensPerPeriod = Math.Max(1, limits.CallsPerSecond / 10), ReplenishmentPeriod = TimeSpan.FromMilliseconds(100),
                QueueLimit = 0, AutoReplenishment = true,
            })),
            PartitionedRateLimiter.Create<HttpContext, string>(context => RateLimitPartition.GetConcurrencyLimiter(Clients.NameOf(context), _ => new ConcurrencyLimiterOptions
            {
                PermitLimit = limits.CallsAtOnce, QueueLimit = 0,
            })));
        options.OnRejected = (rejected, _) =>
        {
            // A bucket tells when it holds something again; of what is going on already nobody knows when it ends.
            bool isRate = rejected.Lease.TryGetMetadata(MetadataName.RetryAfter, out TimeSpan pause);
            return new ValueTask(Refusal.WriteAsync(
                rejected.HttpContext, isRate ? RejectionReason.Rate : RejectionReason.Streams, StatusCode.ResourceExhausted,
                $"too many calls of one client: at most {limits.CallsAtOnce} at once and {limits.CallsPerSecond} a second; try again a little later.",
                isRate ? pause : WhileOthersEnd));
        };
    }
}
