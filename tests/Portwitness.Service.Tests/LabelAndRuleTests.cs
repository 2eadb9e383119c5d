using Grpc.Core;
using Portwitness.Contracts.V1;

namespace Portwitness.Service.Tests;

public sealed class LabelAndRuleTests(ServiceFixture service) : IClassFixture<ServiceFixture>
{
    [Fact]
    public async Task LabelOfOnePort_IsRead()
    {
        ReadLabelResponse response = await service.Client.ReadLabelAsync(
            new ReadLabelRequest { Text = "USB-C1: 5V⎓3A 20V⎓3.25A (65W Max)" });

        PrintedOutput output = response.Label.Outputs.Single();
        output.Port.Should().Be("C1");
        output.Fixed.Select(mode => (mode.VoltageMv, mode.CurrentMa)).Should().Equal((5000, 3000), (20000, 3250));
        output.MaxPowerMw.Should().Be(65000);
    }

    /// <summary>64 KiB, and 2,000 tokens a line: each door says the limit and what to do.</summary>
    [Theory]
    [InlineData(65_537, 1, "the label has 65537 bytes, the limit is 65536 (64 KiB); leave out what is not printed on the product")]
    [InlineData((1 << 20) + 1, 1, "the label has 1048577 bytes, the limit is 65536 (64 KiB); leave out what is not printed on the product")]
    [InlineData(1, 2001, "line 1 of the label has more than 2000 words, numbers and signs, which is the limit; begin a new line where the label does")]
    public async Task LabelBeyondTheLimits_IsRefusedAtEachDoor(int characters, int times, string expected)
    {
        string label = string.Concat(Enumerable.Repeat(new string('+', characters), times));
        Task ReadLabelAsync() => service.Client.ReadLabelAsync(new ReadLabelRequest { Text = label }).ResponseAsync;
        Task CheckAsync() => service.Client.CheckAsync(static _ => [], new CheckRequest
        {
            Options = new CheckOptions { Capture = new LooseCapture { File = "c", Label = label } },
        });
        async Task NegotiateAsync()
        {
            using AsyncDuplexStreamingCall<NegotiateRequest, NegotiateResponse> call = service.Client.Negotiate();
            await call.RequestStream.WriteAsync(new NegotiateRequest { Options = new NegotiateOptions { Label = label, Sinks = { new SinkInput { Words = "all" } } } });
            await call.ResponseStream.MoveNext(CancellationToken.None);
        }

        foreach ((Func<Task> door, string field) in new (Func<Task>, string)[]
        {
            (ReadLabelAsync, "text"), (CheckAsync, "options.capture.label"), (NegotiateAsync, "options.label"),
        })
        {
            (await RefusedCall.FieldsOfAsync(door)).Should().Equal(field);
            (await door.Should().ThrowAsync<RpcException>()).Which.Status.Detail.Should().Contain(expected);
        }
    }

    [Fact]
    public async Task ProductFileWithTooLongALabel_SaysSo()
    {
        ProductReport report = await service.Client.CheckAsync(
            static _ => [], Checking.OfProduct($"product: x\nlabel: {new string('a', 65_537)}\ncaptures: []\n"));

        report.Label.Should().BeNull();
        report.Faults.Should().Contain(static fault => fault.Detail.Contains("65537 bytes, the limit is 65536 (64 KiB); leave out", StringComparison.Ordinal));
        report.Verdict.Should().Be(Verdict.CannotTell);
    }

    [Fact]
    public async Task Rules_AreListedAndFoundByName()
    {
        ListRulesResponse all = await service.Client.ListRulesAsync(new ListRulesRequest());
        all.Rules.Should().NotBeEmpty()
            .And.OnlyContain(rule => rule.Clause.Length > 0 && rule.Why.Length > 0 && rule.Example.Length > 0);

        RuleDescription rule = all.Rules[^1];
        ListRulesResponse one = await service.Client.ListRulesAsync(new ListRulesRequest { Name = rule.Name });
        one.Rules.Should().Equal(rule);
    }

    [Fact]
    public async Task RuleThatDoesNotExist_IsNotFound()
    {
        Func<Task> call = () => service.Client.ListRulesAsync(new ListRulesRequest { Name = "no-such-rule" }).ResponseAsync;

        (await call.Should().ThrowAsync<RpcException>()).Which.StatusCode.Should().Be(StatusCode.NotFound);
    }
}
