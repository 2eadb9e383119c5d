using Google.Protobuf;
using Google.Rpc;
using Grpc.Core;
using Portwitness.Contracts.V1;
using Portwitness.Service.Hosting;
using Portwitness.Service.Validation;

namespace Portwitness.Service.Tests;

/// <summary>The service called within its own process behaves as over a channel (Grpc.Core.Api's contract of a call).</summary>
public sealed class InProcessInvokerTests
{
    private readonly Witness.WitnessClient _client = new(ServiceHost.Embed(new ServiceLimits()));

    [Fact]
    public async Task UnaryCall_IsAnswered()
    {
        using AsyncUnaryCall<ListRulesResponse> call = _client.ListRulesAsync(new ListRulesRequest());

        (await call).Rules.Should().NotBeEmpty();
        call.GetStatus().StatusCode.Should().Be(StatusCode.OK);
        call.GetTrailers().Should().BeEmpty();
        _client.ListRules(new ListRulesRequest { Name = "voltage-offered-twice" }).Rules.Should().ContainSingle();
    }

    [Fact]
    public async Task RefusedCall_CarriesTheRichStatus()
    {
        Func<Task> call = async () => await _client.ListRulesAsync(new ListRulesRequest { Edition = "R9.9" });

        RpcException refused = (await call.Should().ThrowAsync<RpcException>()).Which;
        refused.StatusCode.Should().Be(StatusCode.InvalidArgument);
        refused.GetRpcStatus()!.GetDetail<BadRequest>()!.FieldViolations.Single().Field.Should().Be("edition");
    }

    [Fact]
    public async Task ServiceThatRefusesMidway_EndsTheWriter()
    {
        using AsyncDuplexStreamingCall<DecodeRequest, DecodeResponse> call = _client.Decode();
        Func<Task> write = async () =>
        {
            for (int i = 0; i < 3; i++)
            {
                await call.RequestStream.WriteAsync(new DecodeRequest { Data = ByteString.CopyFromUtf8("0x0801912C") });
            }
        };

        await write.Should().ThrowAsync<InvalidOperationException>("the options come first");
        (await call.ResponseStream.Invoking(responses => responses.MoveNext(CancellationToken.None)).Should().ThrowAsync<RpcException>())
            .Which.StatusCode.Should().Be(StatusCode.InvalidArgument);
    }

    // A writer may use its buffer again when writing has ended.
    [Fact]
    public async Task WrittenMessage_WasReadToItsEnd()
    {
        using AsyncDuplexStreamingCall<DecodeRequest, DecodeResponse> call = _client.Decode();
        await call.RequestStream.WriteAsync(new DecodeRequest { Options = new DecodeOptions { File = "words" } });
        byte[] buffer = [.. "0x0801912C\n"u8];
        await call.RequestStream.WriteAsync(new DecodeRequest { Data = UnsafeByteOperations.UnsafeWrap(buffer) });
        "0x0002D12C\n"u8.CopyTo(buffer);
        await call.RequestStream.WriteAsync(new DecodeRequest { Data = UnsafeByteOperations.UnsafeWrap(buffer) });
        Array.Clear(buffer);
        await call.RequestStream.CompleteAsync();

        (await call.ResponseStream.MoveNext(CancellationToken.None)).Should().BeTrue();
        call.ResponseStream.Current.Capture.Advertisements.Single().Objects.Select(o => o.Raw).Should().Equal(0x0801912Cu, 0x0002D12Cu);
        (await call.ResponseStream.MoveNext(CancellationToken.None)).Should().BeFalse();
    }

    [Fact]
    public async Task StoppedCall_EndsAsCancelled()
    {
        using CancellationTokenSource stop = new();
        using AsyncDuplexStreamingCall<DecodeRequest, DecodeResponse> call = _client.Decode(cancellationToken: stop.Token);
        await call.RequestStream.WriteAsync(new DecodeRequest { Options = new DecodeOptions { File = "words" } });
        Task<bool> answer = call.ResponseStream.MoveNext(CancellationToken.None);

        await stop.CancelAsync();

        (await answer.Awaiting(task => task).Should().ThrowAsync<RpcException>()).Which.StatusCode.Should().Be(StatusCode.Cancelled);
    }

    [Fact]
    public async Task DeadlineThatPassed_EndsTheCall()
    {
        using AsyncDuplexStreamingCall<DecodeRequest, DecodeResponse> call = _client.Decode(deadline: DateTime.UtcNow.AddMilliseconds(-1));

        (await call.ResponseStream.Invoking(responses => responses.MoveNext(CancellationToken.None)).Should().ThrowAsync<RpcException>())
            .Which.StatusCode.Should().BeOneOf(StatusCode.Cancelled, StatusCode.DeadlineExceeded);
    }

    // Nobody need dispose of a call with one answer, and the token that it was given may live as long as the process.
    [Fact]
    public async Task CallThatHasEnded_LeavesNothingAtTheCallersToken()
    {
        using CancellationTokenSource longLived = new();
        RegisteringService service = new();
        Witness.WitnessClient client = new(new InProcessInvoker(service));

        for (int call = 0; call < 3; call++)
        {
            await client.ListSinksAsync(new ListSinksRequest(), cancellationToken: longLived.Token);
        }

        await Access.Eventually.BeAsync(() =>
        {
            GC.Collect();
            GC.WaitForPendingFinalizers();
            return Task.FromResult(service.Registered.TrueForAll(static one => !one.IsAlive));
        });
        GC.KeepAlive(longLived);
    }

    [Fact]
    public async Task CallLeftByItsCaller_LetsTheServiceGo()
    {
        AsyncServerStreamingCall<SynthesizeResponse> call = _client.Synthesize(new SynthesizeRequest
        {
            File = "long", Text = "source: [5V 3A]\nsteps: [attach, measure 5V 1A every 1ms for 1h]",
        });
        (await call.ResponseStream.MoveNext(CancellationToken.None)).Should().BeTrue();

        call.Dispose();

        Func<Task> ended = async () =>
        {
            while (true)
            {
                try
                {
                    call.GetStatus();
                    return;
                }
                catch (InvalidOperationException)
                {
                    await Task.Delay(1);
                }
            }
        };
        await ended.Should().CompleteWithinAsync(TimeSpan.FromSeconds(30));
    }

    /// <summary>Leaves something at the token of each call, as whatever waits does.</summary>
    private sealed class RegisteringService : Witness.WitnessBase
    {
        public List<WeakReference> Registered { get; } = [];

        public override Task<ListSinksResponse> ListSinks(ListSinksRequest request, ServerCallContext context)
        {
            object state = new();
            Registered.Add(new WeakReference(state));
            context.CancellationToken.Register(static _ => { }, state);
            return Task.FromResult(new ListSinksResponse());
        }
    }
}
