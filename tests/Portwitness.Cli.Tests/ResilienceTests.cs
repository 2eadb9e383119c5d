using System.Net;
using System.Net.Sockets;
using Google.Protobuf.WellKnownTypes;
using Google.Rpc;
using Grpc.Core;
using Grpc.Core.Interceptors;
using Grpc.Net.Client;
using Polly;
using Portwitness.Cli.Connection;
using Portwitness.Cli.Shell;
using Portwitness.Contracts.V1;
using Portwitness.History;
using Status = Grpc.Core.Status;

namespace Portwitness.Cli.Tests;

/// <summary>What a client does when the service is away, and when it stops doing it.</summary>
public sealed class ResilienceTests
{
    private static readonly Resilience Quick = new(
        6, TimeSpan.FromMilliseconds(2), TimeSpan.FromMilliseconds(20), TimeSpan.FromMilliseconds(600), TimeSpan.FromMilliseconds(300));

    private readonly List<string> _said = [];
    private int _asked;

    [Fact]
    public async Task ServiceThatComesBack_IsAskedUntilItAnswers()
    {
        int answer = await RunAsync(Quick.CreatePipeline(Say), 2, StatusCode.Unavailable);

        answer.Should().Be(3);
        _said.Should().HaveCount(2);
        _said[0].Should().MatchRegex(@"^the service is away \(try 1 of 6\); the next one comes in \d+\.\d s\.$");
        _said[1].Should().Contain("try 2 of 6");
    }

    [Theory]
    [InlineData(StatusCode.InvalidArgument, "")]
    [InlineData(StatusCode.Unauthenticated, "")]
    [InlineData(StatusCode.PermissionDenied, "")]
    [InlineData(StatusCode.NotFound, "")]
    [InlineData(StatusCode.Internal, "")]
    [InlineData(StatusCode.ResourceExhausted, "Received message exceeds the maximum configured message size.")]
    [InlineData(StatusCode.ResourceExhausted, "too many calls of one client: no words decide, of whatever service they are.")]
    public async Task RefusalForGood_IsNotAskedAgain(StatusCode status, string words)
    {
        Func<Task> run = () => RunAsync(Quick.CreatePipeline(Say), 100, status, words);

        (await run.Should().ThrowAsync<RpcException>()).Which.StatusCode.Should().Be(status);
        _asked.Should().Be(1);
        _said.Should().BeEmpty();
    }

    // google.rpc.RetryInfo: "Describes when the clients can retry a failed request." Aborted, of google/rpc/code.proto: "Use `ABORTED` if the client should
    // retry at a higher level".
    [Fact]
    public async Task ServiceThatSaysWhenToComeAgain_OrThatAnotherCallGotBefore_IsAskedAgain()
    {
        RpcException tooOften = new Google.Rpc.Status
        {
            Code = (int)StatusCode.ResourceExhausted, Message = "langsamer", Details = { Any.Pack(new RetryInfo { RetryDelay = Duration.FromTimeSpan(TimeSpan.FromSeconds(1)) }) },
        }.ToRpcException();
        foreach (RpcException refusal in new[] { tooOften, new RpcException(new Status(StatusCode.Aborted, "")) })
        {
            int asked = 0;
            int answer = await ResilientCalls.RunAsync(Quick.CreatePipeline(Say), _ => ++asked == 1 ? throw refusal : Task.FromResult(asked), CancellationToken.None);

            answer.Should().Be(2);
        }

        _said.Should().HaveCount(2).And.OnlyContain(static words => words.StartsWith("the service is busy (try 1 of 6)", StringComparison.Ordinal));
    }

    [Fact]
    public async Task ServiceThatStaysAway_IsGivenUp_AndSaidSo()
    {
        Func<Task> run = () => RunAsync(Quick.CreatePipeline(Say), 100, StatusCode.Unavailable);

        RpcException last = (await run.Should().ThrowAsync<RpcException>()).Which;
        _asked.Should().Be(6);
        _said.Should().HaveCount(5);
        ServiceFault.ExitCodeOf(last).Should().Be(ExitCode.NoService);
        ServiceFault.Describe(last).Should().Contain("did not come back").And.Contain("what it had accepted is kept").And.Contain("Run the same command again");
    }

    // Twelve tries: 0.2 s doubled, at most 15 s, with a random part.
    [Fact]
    public void UsualPatience_IsLongEnoughForAServiceThatIsStartedAnew()
    {
        double least = Enumerable.Range(0, Resilience.Usual.Tries - 1)
            .Sum(static pause => Math.Min(Resilience.Usual.LongestPause.TotalSeconds, Resilience.Usual.FirstPause.TotalSeconds * Math.Pow(2, pause)));

        least.Should().BeInRange(60, 180);
    }

    [Fact]
    public async Task Pauses_Differ_SoThatClientsDoNotComeBackAllAtOnce()
    {
        Resilience slow = Quick with { FirstPause = TimeSpan.FromMilliseconds(400), LongestPause = TimeSpan.FromSeconds(1), Tries = 2 };
        ResiliencePipeline pipeline = slow.CreatePipeline(Say);

        await Task.WhenAll(Enumerable.Range(0, 12).Select(async _ =>
        {
            Func<Task> run = () => RunAsync(pipeline, 100, StatusCode.Unavailable);
            await run.Should().ThrowAsync<RpcException>();
        }));

        _said.Distinct().Should().HaveCountGreaterThan(2);
    }

    [Fact]
    public async Task ManyFailuresInARow_LeaveTheServiceInPeaceForAWhile()
    {
        ResiliencePipeline pipeline = (Quick with { Tries = 2 }).CreatePipeline();
        for (int call = 0; call < 20; call++)
        {
            Func<Task> run = () => RunAsync(pipeline, 1000, StatusCode.Unavailable);
            (await run.Should().ThrowAsync<RpcException>()).Which.StatusCode.Should().Be(StatusCode.Unavailable);
        }

        // 20 failures break it: the other calls ended without the service being asked.
        _asked.Should().BeInRange(20, 22);
        await Task.Delay(Quick.BreakTime * 2);
        (await RunAsync(pipeline, 0, StatusCode.Unavailable)).Should().BeGreaterThan(20);
    }

    [Fact]
    public async Task ServiceThatTakesCallsAndSaysNothing_IsAskedOncePerTry_WithinItsTime()
    {
        using TcpListener silent = new(IPAddress.Loopback, 0);
        silent.Start();
        using GrpcChannel channel = GrpcChannel.ForAddress($"http://{silent.LocalEndpoint}");
        Resilience twice = Quick with { Tries = 2 };
        Witness.WitnessClient client = new(channel.CreateCallInvoker().Intercept(new ResilientCalls(twice.CreatePipeline(Say), twice.AnswerTime)));

        Func<Task> call = async () => await client.ListSinksAsync(new ListSinksRequest());

        RpcException last = (await call.Should().ThrowAsync<RpcException>()).Which;
        last.StatusCode.Should().Be(StatusCode.DeadlineExceeded);
        _said.Should().HaveCount(1);
        ServiceFault.Describe(last).Should().Be("the service did not answer in time.");
    }

    [Fact]
    public async Task StoreThatIsStarted_IsWaitedFor_AndOneThatRefusesIsNot()
    {
        ResiliencePipeline pipeline = Quick.CreatePipeline(Say, "the store");
        Func<Task> away = async () => await pipeline.ExecuteAsync<int>(_ => throw new StoreException("postgres://x: does not answer.", isUnreachable: true));
        Func<Task> refuses = async () => await pipeline.ExecuteAsync<int>(_ => throw new StoreException("postgres://x: no.", isUnreachable: false));

        await away.Should().ThrowAsync<StoreException>();
        _said.Should().HaveCount(5).And.OnlyContain(static words => words.StartsWith("the store is away", StringComparison.Ordinal));
        await refuses.Should().ThrowAsync<StoreException>();
        _said.Should().HaveCount(5);
    }

    [Fact]
    public async Task Interrupt_EndsThePause()
    {
        using CancellationTokenSource stop = new();
        Resilience slow = Quick with { FirstPause = TimeSpan.FromMinutes(5), LongestPause = TimeSpan.FromMinutes(5) };
        Func<Task> run = () => ResilientCalls.RunAsync<int>(
            slow.CreatePipeline(_ => stop.CancelAfter(10)), static _ => throw new RpcException(new Status(StatusCode.Unavailable, "")), stop.Token);

        await run.Should().ThrowAsync<OperationCanceledException>().WaitAsync(TimeSpan.FromSeconds(60));
    }

    private Task<int> RunAsync(ResiliencePipeline pipeline, int failures, StatusCode status, string words = "") => ResilientCalls.RunAsync(
        pipeline,
        _ =>
        {
            int asked = Interlocked.Increment(ref _asked);
            return asked <= failures ? throw new RpcException(new Status(status, words)) : Task.FromResult(asked);
        },
        CancellationToken.None);

    private void Say(string words)
    {
        lock (_said)
        {
            _said.Add(words);
        }
    }
}
