using System.Text;
using Google.Protobuf;
using Grpc.Core;
using Portwitness.Contracts.V1;

namespace Portwitness.Service.Tests;

public sealed class ConvertTests(ServiceFixture service) : IClassFixture<ServiceFixture>
{
    private const string Capture = "{\"capture\":1}\n{\"t\":1,\"sop\":\"SOP\",\"hex\":\"8100\"}\n";

    [Fact]
    public async Task NothingSent_OptionsAreNamed() =>
        (await RefusedCall.FieldsOfAsync(() => ConvertAsync())).Should().Equal("options");

    [Fact]
    public async Task OptionsThatAreWrong_AreNamedFieldByField()
    {
        ConvertRequest request = new()
        {
            Options = new ConvertOptions
            {
                File = new string('f', 4097),
                To = "xlsx",
                Read = new ReadOptions
                {
                    Table = new TableMapping { Columns = "a=1", TimeUnit = "fortnights", Profile = "[" },
                    Measurements = new MeasurementJoin { Columns = "hex=1", Offset = "1", Profile = "[" },
                },
            },
        };

        (await RefusedCall.FieldsOfAsync(() => ConvertAsync(request))).Should().Equal(
            "options.file", "options.read.table.columns", "options.read.table.profile", "options.read.table.time_unit",
            "options.read.measurements.columns", "options.read.measurements.offset", "options.read.measurements.profile", "options.to");
    }

    [Fact]
    public async Task Capture_ComesBackInTheOtherFormat()
    {
        (byte[] data, Conversion done) = await ConvertAsync(Options("a.pcapng"), Data(Capture));

        data.AsSpan(0, 4).ToArray().Should().Equal(0x0A, 0x0D, 0x0D, 0x0A);
        (done.From, done.To).Should().Be(("capture", "pcapng"));
        done.Written.Single(count => count.Kind == "messages").Count.Should().Be(1);
        done.LeftOut.Should().BeEmpty();
    }

    [Fact]
    public async Task LongCapture_ComesBackWhileItIsRead()
    {
        using AsyncDuplexStreamingCall<ConvertRequest, ConvertResponse> call = service.Client.Convert();
        await call.RequestStream.WriteAsync(Options("jsonl"));
        await call.RequestStream.WriteAsync(Data("{\"capture\":1}\n"));
        for (int piece = 0; piece < 4; piece++)
        {
            await call.RequestStream.WriteAsync(Data(string.Concat(Enumerable.Repeat(Capture.Split('\n')[1] + "\n", 2000))));
        }

        (await call.ResponseStream.MoveNext(CancellationToken.None)).Should().BeTrue();
        call.ResponseStream.Current.Data.ToStringUtf8().Should().StartWith("{\"capture\":1}\n{\"t\":1");
    }

    [Fact]
    public async Task NoCapture_GivesFaultsAndNoBytes()
    {
        (byte[] data, Conversion done) = await ConvertAsync(Options("pcapng.gz"), Data("hello"));

        data.Should().BeEmpty();
        done.From.Should().BeEmpty();
        done.Faults.Select(fault => fault.Code).Should().Equal("format-unknown");
    }

    [Fact]
    public async Task Measurements_AreAskedForInTurns()
    {
        using AsyncDuplexStreamingCall<ConvertRequest, ConvertResponse> call = service.Client.Convert();
        ConvertRequest options = Options("jsonl");
        options.Options.Read = new ReadOptions { Measurements = new MeasurementJoin { File = "m", Columns = "time=1:us,volts=2:mV" } };
        await call.RequestStream.WriteAsync(options);
        // Of 4 KiB the format is told, and records come at once.
        Queue<string> capture = new(["{\"capture\":1}" + new string(' ', 4096) + "\n", "{\"t\":5,\"sop\":\"SOP\",\"hex\":\"8100\"}\n"]);
        Queue<string> measurements = new(["1,5000\n", "9,5100\n"]);
        List<string> asked = [];
        StringBuilder written = new();
        while (await call.ResponseStream.MoveNext(CancellationToken.None))
        {
            ConvertResponse response = call.ResponseStream.Current;
            written.Append(response.PartCase == ConvertResponse.PartOneofCase.Data ? response.Data.ToStringUtf8() : "");
            if (response.PartCase == ConvertResponse.PartOneofCase.NeedPiece)
            {
                asked.Add(response.NeedPiece.File);
                Queue<string> pieces = response.NeedPiece.Input == Input.Measurements ? measurements : capture;
                await call.RequestStream.WriteAsync(pieces.TryDequeue(out string? piece) ? Data(piece) : new ConvertRequest { End = new FileEnd() });
            }
        }

        asked.Should().Equal("a", "a", "m", "m", "a", "m");
        written.ToString().Split('\n').Skip(1).Should().Equal(
            "{\"t\":1,\"vbus_mv\":5000}", "{\"t\":5,\"sop\":\"SOP\",\"hex\":\"8100\"}", "{\"t\":9,\"vbus_mv\":5100}", "");
    }

    private static ConvertRequest Options(string to) => new() { Options = new ConvertOptions { File = "a", To = to } };

    private static ConvertRequest Data(string text) => new() { Data = ByteString.CopyFromUtf8(text) };

    private async Task<(byte[] Data, Conversion Done)> ConvertAsync(params ConvertRequest[] requests)
    {
        using AsyncDuplexStreamingCall<ConvertRequest, ConvertResponse> call = service.Client.Convert();
        foreach (ConvertRequest request in requests)
        {
            await call.RequestStream.WriteAsync(request);
        }

        await call.RequestStream.CompleteAsync();
        using MemoryStream data = new();
        Conversion? done = null;
        while (await call.ResponseStream.MoveNext(CancellationToken.None))
        {
            call.ResponseStream.Current.Data.WriteTo(data);
            done = call.ResponseStream.Current.Conversion ?? done;
        }

        return (data.ToArray(), done!);
    }
}
