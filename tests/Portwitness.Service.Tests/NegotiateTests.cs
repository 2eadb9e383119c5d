using Google.Protobuf;
using Grpc.Core;
using Portwitness.Contracts.V1;

namespace Portwitness.Service.Tests;

/// <summary>Negotiate and ListSinks over a real channel. Words are those of shared/vectors.</summary>
public sealed class NegotiateTests(ServiceFixture service) : IClassFixture<ServiceFixture>
{
    private const string Pps27 = "0x0801912C 0x0002D12C 0xC8DC323C";

    [Fact]
    public async Task Words_AreNegotiated()
    {
        NegotiationReport report = await NegotiateAsync(Options("fixed 5V, 9V; wish 27W"), Data("0x0801912C 0x00"), Data("02D12C"));

        report.Unusable.Should().BeFalse();
        report.Policy.Name.Should().Be("most-power");
        var negotiation = report.Offers.Single().Negotiations.Single();
        (negotiation.Start.RawHex, negotiation.Best.RawHex, negotiation.GetsWish).Should().Be(("0x2004B12C", "0x2004B12C", Verdict.Holds));
        negotiation.Objects.Select(use => use.Outcome).Should().Equal("less-power", "chosen");
    }

    // R3.2v1.1, Figure 7.7: 27 W, 9 V Prog, PPS Power Limited: 3 A at 9 V, 2.45 A at 11 V.
    [Fact]
    public async Task Curve_HasTheCornersOfTheStandard()
    {
        NegotiationReport report = await NegotiateAsync(Options("fixed 5V; pps 3.3-11V 3A; wish 33W"), Data(Pps27));

        SupplyCurve curve = report.Offers.Single().Curves.Single();
        (curve.ObjectPosition, curve.StepMv, curve.PowerLimitMw).Should().Be((3, 20, 27_000));
        (curve.Parts[0].FromMv, curve.Parts[0].ToMv, curve.Parts[0].CurrentMa, curve.Parts[0].ToPowerMw).Should().Be((5_000, 9_000, 3_000, 27_000));
        (curve.Parts[^1].ToMv, curve.Parts[^1].CurrentMa, curve.Parts[^1].ToPowerMw).Should().Be((11_000, 2_450, 26_950));
        report.Offers[0].Negotiations[0].Objects[2].Curve.Should().Equal(curve.Parts);
    }

    [Fact]
    public async Task Label_IsTakenAtItsWord()
    {
        NegotiationReport report = await NegotiateAsync(new NegotiateRequest
        {
            Options = new NegotiateOptions { Label = "USB-C1: 5V⎓3A 20V⎓3.25A (65W Max) what", Sinks = { new SinkInput { Words = "laptop-65w" } } },
        });

        report.Source.Should().Be("label");
        report.Offers.Single().Negotiations.Single().Best.PowerMw.Should().Be(65_000);
        report.Faults.Single().Code.Should().Be("label-unread");
    }

    [Fact]
    public async Task FaultyDescription_StopsAllWithItsPlace()
    {
        NegotiateRequest options = Options("laptop-65w");
        options.Options.Sinks.Add(new SinkInput { File = "phone.yaml", Yaml = "fixed: 5V\nwish: much\n" });

        NegotiationReport report = await NegotiateAsync(options, Data("0x0801912C"));

        report.Unusable.Should().BeTrue();
        Fault fault = report.Faults.Single();
        (fault.File, fault.Line, fault.Column, fault.Code).Should().Be(("phone.yaml", 2, 7, "sink-value-wrong"));
    }

    [Fact]
    public async Task CaptureWithoutList_IsUnusable()
    {
        NegotiationReport report = await NegotiateAsync(Options("laptop-65w"), Data("{\"capture\":1}\n{\"t\":1,\"sop\":\"SOP\",\"hex\":\"4102\"}\n"));

        (report.Unusable, report.Faults.Single().Code).Should().Be((true, "nothing-offered"));
    }

    [Fact]
    public async Task ManyArrangements_AreBoundedAndCounted()
    {
        // Each attach of another port is another arrangement: 2,000 pairs with 100 devices are 20 of them.
        string list = "{\"t\":1,\"sop\":\"SOP\",\"hex\":\"A1112C910108\"}\n";
        string capture = "{\"capture\":1,\"port\":\"C0\",\"in_use\":[\"C0\"]}\n"
            + string.Concat(Enumerable.Range(1, 40).Select(n => $"{{\"t\":1,\"event\":\"attach\",\"port\":\"C{n}\"}}\n{list}"));
        NegotiateRequest options = Options("phone-20w");
        options.Options.Sinks.Add(Enumerable.Repeat(options.Options.Sinks[0], 99));

        NegotiationReport report = await NegotiateAsync(options, Data(capture));

        report.Offers.Sum(offer => offer.Negotiations.Count).Should().BeLessThanOrEqualTo(2_000);
        report.Offers.Count.Should().Be(20);
        report.Faults.Should().ContainSingle(fault => fault.Code == "not-all-listed");
    }

    [Fact]
    public async Task WrongFields_AreNamedTogether()
    {
        NegotiateRequest request = new()
        {
            Options = new NegotiateOptions
            {
                Capture = new NegotiatedCapture { File = new string('f', 4097), Read = new ReadOptions { Measurements = new MeasurementJoin() } },
                Policy = "greedy",
            },
        };

        (await RefusedCall.FieldsOfAsync(() => NegotiateAsync(request))).Should().Equal(
            "options.capture.file", "options.capture.read.measurements", "options.policy", "options.sinks");
    }

    [Fact]
    public async Task OrderOfParts_IsKept()
    {
        NegotiateRequest label = new() { Options = new NegotiateOptions { Label = "5V⎓3A", Sinks = { new SinkInput { Words = "all" } } } };

        (await RefusedCall.FieldsOfAsync(() => NegotiateAsync())).Should().Equal("options");
        (await RefusedCall.FieldsOfAsync(() => NegotiateAsync(Data("0x0801912C")))).Should().Equal("options");
        (await RefusedCall.FieldsOfAsync(() => NegotiateAsync(Options("all"), Options("all")))).Should().Equal("options");
        (await RefusedCall.FieldsOfAsync(() => NegotiateAsync(label, Data("0x0801912C")))).Should().Equal("data");
        (await RefusedCall.FieldsOfAsync(() => NegotiateAsync(new NegotiateRequest { Options = new NegotiateOptions { Sinks = { label.Options.Sinks } } })))
            .Should().Equal("options.source");
    }

    [Fact]
    public async Task ListSinks_GivesWordsThatNegotiateTakes()
    {
        ListSinksResponse list = await service.Client.ListSinksAsync(new ListSinksRequest());

        list.Policies.Select(policy => policy.Name).Should().Equal("most-power", "high-voltage", "low-voltage", "fixed-first", "adjustable-first");
        NegotiationReport report = await NegotiateAsync(Options([.. list.Sinks.Select(sink => sink.Words)]), Data("0x0801912C"));
        report.Sinks.Select(sink => sink.Words).Should().Equal(list.Sinks.Select(sink => sink.Words));
        report.Sinks.Select(sink => sink.WishMw).Should().Equal(list.Sinks.Select(sink => sink.WishMw));
    }

    private static NegotiateRequest Options(params string[] sinks)
    {
        NegotiateOptions options = new() { Capture = new NegotiatedCapture { File = "a" } };
        options.Sinks.AddRange(sinks.Select(words => new SinkInput { Words = words, File = "words" }));
        return new NegotiateRequest { Options = options };
    }

    private static NegotiateRequest Data(string text) => new() { Data = ByteString.CopyFromUtf8(text) };

    private async Task<NegotiationReport> NegotiateAsync(params NegotiateRequest[] requests)
    {
        using AsyncDuplexStreamingCall<NegotiateRequest, NegotiateResponse> call = service.Client.Negotiate();
        try
        {
            foreach (NegotiateRequest request in requests)
            {
                await call.RequestStream.WriteAsync(request);
            }

            await call.RequestStream.CompleteAsync();
        }
        catch (Exception exception) when (exception is RpcException or InvalidOperationException)
        {
            // The call has ended; its answer says why.
        }

        return (await call.ResponseStream.ReadAllAsync().ToListAsync()).Single().Report;
    }
}
