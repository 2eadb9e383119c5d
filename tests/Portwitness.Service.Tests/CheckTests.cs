using System.Text;
using Google.Protobuf;
using Grpc.Core;
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
        (await Refusal.FieldsOfAsync(() => CheckAsync(_ => []))).Should().Equal("options");

    [Fact]
    public async Task NoSubjectAndUnknownEdition_BothAreNamed()
    {
        CheckRequest request = new() { Options = new CheckOptions { Edition = "R7" } };

        (await Refusal.FieldsOfAsync(() => CheckAsync(_ => [], request)))
            .Should().Equal("options.edition", "options.subject");
    }

    [Fact]
    public async Task ProductTextLongerThanOneMebibyte_ItsFieldIsNamed() =>
        (await Refusal.FieldsOfAsync(() => CheckAsync(_ => [], OfProduct(new string('x', (1 << 20) + 1)))))
            .Should().Equal("options.product.text");

    [Fact]
    public async Task LabelLongerThanOneMebibyte_ItsFieldIsNamed()
    {
        CheckRequest request = new()
        {
            Options = new CheckOptions { Capture = new LooseCapture { Label = new string('x', (1 << 20) + 1) } },
        };

        (await Refusal.FieldsOfAsync(() => CheckAsync(_ => [], request))).Should().Equal("options.capture.label");
    }

    [Fact]
    public async Task MoreFilesThanTheLimit_ProductIsRefused()
    {
        string many = "product: Tarnholt TH-1\ncaptures:\n"
            + string.Concat(Enumerable.Range(1, 4).Select(n => $"  - {{file: c{n}.words, port: C1, in_use: [C1]}}\n"));

        (await Refusal.FieldsOfAsync(() => CheckAsync(_ => [], OfProduct(many)))).Should().Equal("options.product.text");
    }

    [Fact]
    public async Task OptionsTwice_OptionsAreNamed() =>
        (await Refusal.FieldsOfAsync(() => CheckAsync(_ => [OfProduct(Product)], OfProduct(Product)))).Should().Equal("options");

    [Fact]
    public async Task UploadEndsWithinAFile_EndIsNamed() =>
        (await Refusal.FieldsOfAsync(() => CheckAsync(_ => [], OfProduct(Product)))).Should().Equal("end");

    [Fact]
    public async Task FilesGiven_AreAskedForInOrderAndReported()
    {
        List<string> asked = [];

        ProductReport report = await CheckAsync(
            need =>
            {
                asked.Add(need);
                return [Data("0x0801912C "), Data("0x0002D12C"), new CheckRequest { End = new FileEnd() }];
            },
            OfProduct(Product));

        asked.Should().Equal("c1.words", "deep/c1.words");
        report.Product.Should().Be("Tarnholt TH-27 wall charger");
        report.Ports.Single().Arrangements.Should().HaveCount(2)
            .And.OnlyContain(arrangement => arrangement.Offered.Objects.Count == 2);
        report.Unusable.Should().BeFalse();
    }

    [Fact]
    public async Task FilesMissing_ReportSaysSoAndIsUnusable()
    {
        ProductReport report = await CheckAsync(
            _ => [new CheckRequest { Missing = new FileMissing { Reason = "lost at sea" } }], OfProduct(Product));

        report.Faults.Should().HaveCount(2).And.OnlyContain(fault => fault.Detail.Contains("lost at sea"));
        report.Unusable.Should().BeTrue();
    }

    private static CheckRequest OfProduct(string text) =>
        new() { Options = new CheckOptions { Product = new ProductFile { File = "product.yaml", Text = text } } };

    private static CheckRequest Data(string text) => new() { Data = ByteString.CopyFrom(text, Encoding.UTF8) };

    private async Task<ProductReport> CheckAsync(Func<string, CheckRequest[]> give, params CheckRequest[] first)
    {
        using AsyncDuplexStreamingCall<CheckRequest, CheckResponse> call = service.Client.Check();
        foreach (CheckRequest request in first)
        {
            await call.RequestStream.WriteAsync(request);
        }

        if (first.Length == 0)
        {
            await call.RequestStream.CompleteAsync();
        }

        while (await call.ResponseStream.MoveNext(CancellationToken.None))
        {
            if (call.ResponseStream.Current.PartCase == CheckResponse.PartOneofCase.Report)
            {
                return call.ResponseStream.Current.Report;
            }

            CheckRequest[] given = give(call.ResponseStream.Current.Need);
            foreach (CheckRequest request in given)
            {
                await call.RequestStream.WriteAsync(request);
            }

            if (given.Length == 0)
            {
                await call.RequestStream.CompleteAsync();
            }
        }

        throw new InvalidOperationException("The service ended without a report.");
    }
}
