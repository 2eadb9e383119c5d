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

    [Fact]
    public async Task LabelLongerThanOneMebibyte_TextIsNamed() =>
        (await Refusal.FieldsOfAsync(
            () => service.Client.ReadLabelAsync(new ReadLabelRequest { Text = new string('5', (1 << 20) + 1) }).ResponseAsync))
        .Should().Equal("text");

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
