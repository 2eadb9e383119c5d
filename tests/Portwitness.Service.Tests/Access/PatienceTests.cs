using Grpc.Core;
using Portwitness.Contracts.V1;
using Portwitness.Service.Validation;

namespace Portwitness.Service.Tests.Access;

/// <summary>Clients that keep a call open and do nothing with it.</summary>
public sealed class PatienceTests
{
    private static readonly ServiceLimits Short = new() { Patience = TimeSpan.FromMilliseconds(500), CallsAtOnce = 1 };
    private static readonly TimeSpan Generous = TimeSpan.FromSeconds(60);

    [Fact]
    public async Task StreamThatFallsSilent_IsEnded()
    {
        await using AccessHost host = await AccessHost.StartAsync(limits: Short);
        using AsyncDuplexStreamingCall<DecodeRequest, DecodeResponse> call = host.Client().Decode();
        await call.RequestStream.WriteAsync(new DecodeRequest { Options = new DecodeOptions { File = "a" } });

        Status status = await Call.StatusOfAsync(() => call.ResponseStream.MoveNext(CancellationToken.None).WaitAsync(Generous));

        status.Should().Be(new Status(StatusCode.DeadlineExceeded, "The client sent nothing for 0.5 s."));
    }

    [Fact]
    public async Task WatchedStream_MayBeSilentForLonger()
    {
        await using AccessHost host = await AccessHost.StartAsync(limits: Short with { WatchPatience = TimeSpan.FromSeconds(3) });
        using AsyncDuplexStreamingCall<DecodeRequest, WatchResponse> call = host.Client().Watch();
        await call.RequestStream.WriteAsync(new DecodeRequest { Options = new DecodeOptions { File = "a" } });

        Status status = await Call.StatusOfAsync(() => call.ResponseStream.MoveNext(CancellationToken.None).WaitAsync(Generous));

        status.Should().Be(new Status(StatusCode.DeadlineExceeded, "The client sent nothing for 3 s."));
    }

    [Fact]
    public async Task CallWhoseOneMessageNeverComes_IsEnded()
    {
        await using AccessHost host = await AccessHost.StartAsync(limits: Short);
        foreach (string method in new[] { "ListRules", "Synthesize" })
        {
            using AsyncDuplexStreamingCall<byte[], byte[]> call = Call.Open(host.Connect(), Witness.Descriptor.FullName, method);
            await call.ResponseHeadersAsync.WaitAsync(TimeSpan.FromSeconds(1)).ContinueWith(static _ => { }, TaskScheduler.Default);

            Status status = await Call.StatusOfAsync(() => call.ResponseStream.MoveNext(CancellationToken.None).WaitAsync(Generous));

            status.StatusCode.Should().NotBe(StatusCode.OK);
        }
    }

    [Fact]
    public async Task SilentStream_HoldsItsPlace_OnlyUntilItIsEnded()
    {
        await using AccessHost host = await AccessHost.StartAsync(limits: Short with { Patience = TimeSpan.FromSeconds(2) });
        Witness.WitnessClient other = host.Client();

        // There is one place: the other's own call may have it just when the silent one comes, which is refused then and comes again.
        await Eventually.BeAsync(async () =>
        {
            AsyncDuplexStreamingCall<DecodeRequest, DecodeResponse> silent = host.Client().Decode();
            await Call.StatusOfAsync(() => silent.RequestStream.WriteAsync(new DecodeRequest { Options = new DecodeOptions { File = "a" } }));
            return (await Call.StatusOfAsync(async () => await other.ListSinksAsync(new ListSinksRequest()))).StatusCode == StatusCode.ResourceExhausted;
        });

        await Eventually.BeAsync(async () => (await Call.StatusOfAsync(async () => await other.ListSinksAsync(new ListSinksRequest()))).StatusCode == StatusCode.OK);
    }
}
