using Portwitness.Contracts.V1;

namespace Portwitness.Service.Tests;

public sealed class CheckTests(ServiceFixture service) : IClassFixture<ServiceFixture>
{
    private const string Product = """
        product: Tarnholt TH-27 wall charger
        label: |
          USB-C1: 5V⎓3A 9V⎓3A (27W Max)
        captures:
          - {file: c1.words, port: C1, in_use: [C1]}
          - {file: deep/c1.words, port: C1, in_use: [C1]}
        """;

    [Fact]
    public async Task NothingSent_OptionsAreNamed() =>
        (await RefusedCall.FieldsOfAsync(() => service.Client.CheckAsync(_ => []))).Should().Equal("options");

    [Fact]
    public async Task NoSubjectAndUnknownEdition_BothAreNamed()
    {
        CheckRequest request = new() { Options = new CheckOptions { Edition = "R7" } };

        (await RefusedCall.FieldsOfAsync(() => service.Client.CheckAsync(_ => [], request)))
            .Should().Equal("options.edition", "options.subject");
    }

    [Fact]
    public async Task ProductTextLongerThanOneMebibyte_ItsFieldIsNamed() =>
        (await RefusedCall.FieldsOfAsync(() => service.Client.CheckAsync(_ => [], Checking.OfProduct(new string('x', (1 << 20) + 1)))))
            .Should().Equal("options.product.text");

    [Fact]
    public async Task LabelLongerThanOneMebibyte_ItsFieldIsNamed()
    {
        CheckRequest request = new()
        {
            Options = new CheckOptions { Capture = new LooseCapture { Label = new string('x', (1 << 20) + 1) } },
        };

        (await RefusedCall.FieldsOfAsync(() => service.Client.CheckAsync(_ => [], request))).Should().Equal("options.capture.label");
    }

    [Fact]
    public async Task MoreFilesThanTheLimit_ProductIsRefused()
    {
        string many = "product: Tarnholt TH-1\ncaptures:\n"
            + string.Concat(Enumerable.Range(1, 5).Select(n => $"  - {{file: c{n}.words, port: C1, in_use: [C1]}}\n"));

        (await RefusedCall.FieldsOfAsync(() => service.Client.CheckAsync(_ => [], Checking.OfProduct(many)))).Should().Equal("options.product.text");
    }

    [Fact]
    public async Task OptionsTwice_OptionsAreNamed() =>
        (await RefusedCall.FieldsOfAsync(() => service.Client.CheckAsync(_ => [Checking.OfProduct(Product)], Checking.OfProduct(Product)))).Should().Equal("options");

    [Fact]
    public async Task UploadEndsWithinAFile_EndIsNamed() =>
        (await RefusedCall.FieldsOfAsync(() => service.Client.CheckAsync(_ => [], Checking.OfProduct(Product)))).Should().Equal("end");

    [Fact]
    public async Task FilesGiven_AreAskedForInOrderAndReported()
    {
        List<string> asked = [];

        ProductReport report = await service.Client.CheckAsync(
            need =>
            {
                asked.Add(need);
                return [Checking.Data("0x0801912C "), Checking.Data("0x0002D12C"), Checking.End];
            },
            Checking.OfProduct(Product));

        asked.Should().Equal("c1.words", "deep/c1.words");
        report.Product.Should().Be("Tarnholt TH-27 wall charger");
        report.Ports.Single().Arrangements.Should().HaveCount(2)
            .And.OnlyContain(arrangement => arrangement.Offered.Objects.Count == 2);
        report.Unusable.Should().BeFalse();
    }

    [Fact]
    public async Task FilesMissing_ReportSaysSoAndIsUnusable()
    {
        ProductReport report = await service.Client.CheckAsync(
            _ => [Checking.Missing("lost at sea")], Checking.OfProduct(Product));

        report.Faults.Should().HaveCount(2).And.OnlyContain(fault => fault.Detail.Contains("lost at sea"));
        report.Unusable.Should().BeTrue();
    }
}
