using Grpc.Core;
using Portwitness.Contracts.V1;
using Portwitness.History;
using Portwitness.Service.Tests.Submitting;
using Portwitness.Service.Validation;

namespace Portwitness.Service.Tests.Access;

/// <summary>How much one client may do, and that others do not suffer from it.</summary>
public sealed class LimitTests
{
    [Fact]
    public async Task MoreCallsThanASecondHas_AreRefused_ThisClientsAlone()
    {
        await using AccessHost host = await AccessHost.StartAsync("tokens", new ServiceLimits { CallsPerSecond = 10 });
        Metadata greedy = AccessHost.Bearer(await host.NewTokenAsync(TokenRole.Read));
        Metadata other = AccessHost.Bearer(await host.NewTokenAsync(TokenRole.Read));
        Witness.WitnessClient client = host.Client();
        await client.ListSinksAsync(new ListSinksRequest(), other);

        Status[] ends = await Task.WhenAll(Enumerable.Range(0, 100).Select(_ => Call.StatusOfAsync(async () => await client.ListSinksAsync(new ListSinksRequest(), greedy))));

        // A burst of twice the limit, and what the time of the test gives besides.
        ends.Count(static end => end.StatusCode == StatusCode.OK).Should().BeInRange(20, 99);
        ends.Where(static end => end.StatusCode != StatusCode.OK).Should().AllSatisfy(static end =>
        {
            end.StatusCode.Should().Be(StatusCode.ResourceExhausted);
            end.Detail.Should().Be("too many calls of one client: at most 256 at once and 10 a second; try again a little later.");
        });
        (await Call.StatusOfAsync(async () => await client.ListSinksAsync(new ListSinksRequest(), other))).StatusCode.Should().Be(StatusCode.OK);
        await Eventually.BeAsync(async () => (await Call.StatusOfAsync(async () => await client.ListSinksAsync(new ListSinksRequest(), greedy))).StatusCode == StatusCode.OK);
    }

    // google.rpc.RetryInfo tells a client that it may come again; what is too large is refused with the same status and without it.
    [Fact]
    public async Task TooManyCalls_AreToldWhenToComeAgain_ByType()
    {
        await using AccessHost host = await AccessHost.StartAsync(limits: new ServiceLimits { CallsPerSecond = 10, MessageBytes = 1000 });
        Witness.WitnessClient client = host.Client();

        RpcException?[] refusals = await Task.WhenAll(Enumerable.Range(0, 100).Select(async _ =>
        {
            try
            {
                await client.ListSinksAsync(new ListSinksRequest());
                return null;
            }
            catch (RpcException refused)
            {
                return refused;
            }
        }));
        RpcException? large = null;
        await Eventually.BeAsync(async () =>
        {
            large = await Assert.ThrowsAsync<RpcException>(async () => await client.ReadLabelAsync(new ReadLabelRequest { Text = new string('x', 2000) }));
            return large.GetRpcStatus() is null;
        });

        refusals.OfType<RpcException>().Should().NotBeEmpty().And.OnlyContain(static one => one.StatusCode == StatusCode.ResourceExhausted);
        refusals.OfType<RpcException>().Should().AllSatisfy(static one =>
            one.GetRpcStatus()!.GetDetail<Google.Rpc.RetryInfo>()!.RetryDelay.ToTimeSpan().Should().BePositive().And.BeLessThan(TimeSpan.FromMinutes(1)));
        large!.StatusCode.Should().Be(StatusCode.ResourceExhausted);
    }

    [Fact]
    public async Task DatabaseThatIsAway_IsNoReasonToThrowTokensAway()
    {
        await using AccessHost host = await AccessHost.StartAsync("tokens");
        Metadata token = AccessHost.Bearer(await host.NewTokenAsync(TokenRole.Read));
        await host.BreakStoreAsync();

        Status end = await Call.StatusOfAsync(async () => await host.Client().ListSinksAsync(new ListSinksRequest(), token));

        end.Should().Be(new Status(StatusCode.Unavailable, "tokens cannot be looked up now; try again later."));
    }

    [Fact]
    public async Task ClientThatReadsNothing_IsEnded()
    {
        await using AccessHost host = await AccessHost.StartAsync(limits: new ServiceLimits { Patience = TimeSpan.FromSeconds(1), CallsAtOnce = 1 });
        using AsyncDuplexStreamingCall<CheckManyRequest, CheckManyResponse> deaf = host.Client().CheckMany();
        CheckManyRequest large = new() { Id = "a", Product = SubmittingService.Demo("shared-tb65") };
        large.Product.Options.Plots = true;

        // Answers are longer than what is asked: they fill every buffer on the way, and then the service reads no more either.
        Func<Task> sending = async () =>
        {
            for (int product = 0; product < 2000; product++)
            {
                await deaf.RequestStream.WriteAsync(large);
            }
        };
        await sending.Should().ThrowAsync<Exception>().WaitAsync(TimeSpan.FromSeconds(120));

        // Its place is free again.
        await Eventually.BeAsync(async () => (await Call.StatusOfAsync(async () => await host.Client().ListSinksAsync(new ListSinksRequest()))).StatusCode == StatusCode.OK);
    }
}
