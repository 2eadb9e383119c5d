using Google.Rpc;
using Grpc.Core;
using Polly;
using Polly.CircuitBreaker;
using Polly.Retry;
using Portwitness.History;

namespace Portwitness.Cli.Connection;

/// <summary>
/// Retries and circuit breaking for services and stores that go away for a while. What is called again has to be the same when it is done twice; all
/// that this contract has is.
/// </summary>
/// <param name="Tries">So often in all.</param>
/// <param name="FirstPause">Before the second try; each further pause is twice as long, with a random part, so that clients do not come back all at once.</param>
/// <param name="LongestPause">No pause is longer.</param>
/// <param name="BreakTime">After many failures in a row nobody asks for this long.</param>
/// <param name="AnswerTime">How long one try of a call with one answer may take.</param>
internal sealed record Resilience(int Tries, TimeSpan FirstPause, TimeSpan LongestPause, TimeSpan BreakTime, TimeSpan AnswerTime)
{
    private const int FailuresThatBreak = 20;

    /// <summary>About a minute and a half in all: long enough for a service that is started anew.</summary>
    public static Resilience Usual { get; } = new(
        12, TimeSpan.FromMilliseconds(200), TimeSpan.FromSeconds(15), TimeSpan.FromSeconds(5), TimeSpan.FromSeconds(60));

    /// <summary>One pipeline, which all calls to one service share: what one of them learns spares the others.</summary>
    /// <param name="onRetry">Told of each pause; null for silence.</param>
    /// <param name="what">What may be away, for people.</param>
    public ResiliencePipeline CreatePipeline(Action<string>? onRetry = null, string what = "the service") => new ResiliencePipelineBuilder()
        .AddRetry(new RetryStrategyOptions
        {
            MaxRetryAttempts = Tries - 1,
            Delay = FirstPause,
            MaxDelay = LongestPause,
            BackoffType = DelayBackoffType.Exponential,
            UseJitter = true,
            ShouldHandle = new PredicateBuilder().Handle<RpcException>(IsPassing).Handle<BrokenCircuitException>().Handle<StoreException>(static store => store.IsUnreachable),
            OnRetry = retry =>
            {
                onRetry?.Invoke($"{what} is {(IsBusy(retry.Outcome.Exception) ? "busy" : "away")} (try {retry.AttemptNumber + 1} of {Tries}); the next one comes in {retry.RetryDelay.TotalSeconds:0.0} s.");
                return default;
            },
        })
        .AddCircuitBreaker(new CircuitBreakerStrategyOptions
        {
            FailureRatio = 0.9,
            MinimumThroughput = FailuresThatBreak,
            SamplingDuration = TimeSpan.FromSeconds(10),
            BreakDuration = BreakTime,
            ShouldHandle = new PredicateBuilder().Handle<RpcException>(IsOverloaded),
        })
        .Build();

    // What the service refuses for good is not asked again; a node that hangs may be another one next time.
    private static bool IsPassing(RpcException exception) => IsOverloaded(exception) || exception.StatusCode == StatusCode.Aborted;

    private static bool IsOverloaded(RpcException exception) => exception.StatusCode is StatusCode.Unavailable or StatusCode.DeadlineExceeded || IsTooOften(exception);

    // What is too large is ResourceExhausted as well; of what is too often the service says when to come again.
    private static bool IsTooOften(RpcException exception) =>
        exception.StatusCode == StatusCode.ResourceExhausted && exception.GetRpcStatus()?.GetDetail<RetryInfo>() is not null;

    // Aborted: another call got in between (google/rpc/code.proto).
    private static bool IsBusy(Exception? exception) => exception is RpcException refused && (refused.StatusCode == StatusCode.Aborted || IsTooOften(refused));
}
