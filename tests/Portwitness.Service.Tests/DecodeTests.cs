using System.Text;
using Google.Protobuf;
using Grpc.Core;
using Portwitness.Contracts.V1;

namespace Portwitness.Service.Tests;

public sealed class DecodeTests(ServiceFixture service) : IClassFixture<ServiceFixture>
{
    private static readonly DecodeRequest Options = new() { Options = new DecodeOptions { File = "a" } };

    [Fact]
    public async Task NothingSent_OptionsAreNamed() =>
        (await RefusedCall.FieldsOfAsync(() => DecodeAsync())).Should().Equal("options");

    [Fact]
    public async Task DataBeforeOptions_OptionsAreNamed() =>
        (await RefusedCall.FieldsOfAsync(() => DecodeAsync(Data("0x0801912C"), Options))).Should().Equal("options");

    [Fact]
    public async Task OptionsTwice_OptionsAreNamed() =>
        (await RefusedCall.FieldsOfAsync(() => DecodeAsync(Options, Options))).Should().Equal("options");

    [Fact]
    public async Task UnknownEditionAndLongName_BothAreNamed()
    {
        DecodeRequest request = new() { Options = new DecodeOptions { File = new string('f', 4097), Edition = "R9.9" } };

        (await RefusedCall.FieldsOfAsync(() => DecodeAsync(request))).Should().Equal("options.file", "options.edition");
    }

    [Fact]
    public async Task PieceLongerThanOneMebibyte_DataIsNamed()
    {
        DecodeRequest piece = new() { Data = ByteString.CopyFrom(new byte[(1 << 20) + 1]) };

        (await RefusedCall.FieldsOfAsync(() => DecodeAsync(Options, piece))).Should().Equal("data");
    }

    [Fact]
    public async Task WordsSplitAnywhere_ObjectsAreComplete()
    {
        // 5 V 3 A and 9 V 3 A: 50 mV and 10 mA steps (R3.2v1.1, Table 6.9).
        DecodedCapture capture = await DecodeAsync(Options, Data("0x0801912C 0x00"), Data("02D12C"));

        capture.Format.Should().Be("words");
        PowerObject[] objects = [.. capture.Advertisements.Single().Objects];
        objects.Select(o => o.Fixed.VoltageMv).Should().Equal(5000, 9000);
        objects.Select(o => o.Fixed.MaxCurrentMa).Should().Equal(3000, 3000);
    }

    [Fact]
    public async Task UploadBeyondTheServersUsualRequestSize_IsReadToItsEnd()
    {
        // 40 MiB in pieces; Kestrel by itself stops at 30 MB.
        const int Messages = 40 * 1024;
        string line = "{\"t\":1,\"sop\":\"SOP\",\"hex\":\"4102\",\"pad\":\"" + new string('x', 1024 - 41) + "\"}\n";
        DecodeRequest piece = Data(string.Concat(Enumerable.Repeat(line, 512)));
        DecodeRequest[] pieces = [Options, Data("{\"capture\":1}\n"), .. Enumerable.Repeat(piece, Messages / 512)];

        DecodedCapture capture = await DecodeAsync(pieces);

        capture.MessageCount.Should().Be(Messages);
    }

    [Fact]
    public async Task MessagesAskedFor_ComeInOrderInSmallAnswers()
    {
        using AsyncDuplexStreamingCall<DecodeRequest, DecodeResponse> call = service.Client.Decode();
        await call.RequestStream.WriteAsync(new DecodeRequest { Options = new DecodeOptions { Messages = true } });
        await call.RequestStream.WriteAsync(Data("{\"capture\":1}\n"));
        string line = "{\"t\":1,\"sop\":\"SOP\",\"hex\":\"4102\"}\n";
        await call.RequestStream.WriteAsync(Data(string.Concat(Enumerable.Repeat(line, 10_000))));
        await call.RequestStream.CompleteAsync();

        DecodeResponse[] answers = [.. await call.ResponseStream.ReadAllAsync().ToListAsync()];

        DecodeResponse[] listed = answers[..^1];
        listed.Should().OnlyContain(answer => answer.Messages.Messages.Count <= 1024);
        listed.SelectMany(answer => answer.Messages.Messages).Select(message => message.Index)
            .Should().Equal(Enumerable.Range(1, 10_000).Select(index => (long)index));
        answers[^1].Capture.MessageCount.Should().Be(10_000);
    }

    [Fact]
    public async Task UploadCancelled_CallEndsAndTheServiceGoesOn()
    {
        using CancellationTokenSource stop = new();
        using AsyncDuplexStreamingCall<DecodeRequest, DecodeResponse> call =
            service.Client.Decode(cancellationToken: stop.Token);
        await call.RequestStream.WriteAsync(Options);
        await call.RequestStream.WriteAsync(Data("{\"capture\":1}\n"));

        await stop.CancelAsync();

        Func<Task> read = () => call.ResponseStream.MoveNext(CancellationToken.None);
        (await read.Should().ThrowAsync<RpcException>()).Which.StatusCode.Should().Be(StatusCode.Cancelled);
        (await DecodeAsync(Options, Data("0x0801912C"))).Advertisements.Should().HaveCount(1);
    }

    private static DecodeRequest Data(string text) => new() { Data = ByteString.CopyFrom(text, Encoding.UTF8) };

    private async Task<DecodedCapture> DecodeAsync(params DecodeRequest[] requests)
    {
        using AsyncDuplexStreamingCall<DecodeRequest, DecodeResponse> call = service.Client.Decode();
        foreach (DecodeRequest request in requests)
        {
            try
            {
                await call.RequestStream.WriteAsync(request);
            }
            catch (RpcException)
            {
                // The service has refused an earlier message; its answer says why.
                break;
            }
        }

        await call.RequestStream.CompleteAsync();
        DecodedCapture? capture = null;
        await foreach (DecodeResponse response in call.ResponseStream.ReadAllAsync())
        {
            capture = response.Capture;
        }

        return capture!;
    }
}
