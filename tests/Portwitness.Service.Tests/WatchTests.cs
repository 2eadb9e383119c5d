using System.Text;
using Google.Protobuf;
using Grpc.Core;
using Portwitness.Contracts.V1;
using Portwitness.Tests;

namespace Portwitness.Service.Tests;

/// <summary>A capture while it is recorded.</summary>
public sealed class WatchTests(ServiceFixture service) : IClassFixture<ServiceFixture>
{
    [Theory]
    [InlineData("broken-tp20/c1.capture.jsonl")]
    [InlineData("dishonest-th100/c1.capture.jsonl")]
    public async Task WholeResult_IsThatOfDecode(string capture)
    {
        string path = Repository.PathOf("captures", capture);
        List<WatchResponse> answers = [];
        DecodedCapture watched = await WatchAsync(await File.ReadAllLinesAsync(path), answers);

        watched.Should().Be(await DecodeAsync(await File.ReadAllBytesAsync(path)));
        answers.Where(static one => one.Messages is not null).Sum(static one => one.Messages.Messages.Count).Should().Be((int)watched.MessageCount);
    }

    [Fact]
    public async Task Finding_ComesWhileTheCaptureRuns()
    {
        // A source that has not ended its list with a legal object: known as soon as the list is there.
        string[] lines = await File.ReadAllLinesAsync(Repository.PathOf("captures", "broken-tp20", "c1.capture.jsonl"));
        using AsyncDuplexStreamingCall<DecodeRequest, WatchResponse> call = service.Client.Watch();
        await call.RequestStream.WriteAsync(new DecodeRequest { Options = new DecodeOptions { File = "c" } });
        using CancellationTokenSource patience = new(TimeSpan.FromSeconds(60));
        foreach (string line in lines.SkipLast(1))
        {
            await call.RequestStream.WriteAsync(Data(line));
        }

        // The capture still runs: its last line was not sent.
        (await call.ResponseStream.MoveNext(patience.Token)).Should().BeTrue();
        call.ResponseStream.Current.Finding.Finding.Rule.Should().NotBeEmpty();
        await call.RequestStream.CompleteAsync();
    }

    [Fact]
    public async Task EveryFindingOfTheResult_WasToldBefore_OrComesOfTheEnd()
    {
        List<WatchResponse> answers = [];
        DecodedCapture watched = await WatchAsync(
            await File.ReadAllLinesAsync(Repository.PathOf("captures", "broken-tp20", "c1.capture.jsonl")), answers);

        IEnumerable<string> told = answers.Where(static one => one.Finding is { Withdrawn: false }).Select(static one => one.Finding.Finding.Rule);
        watched.Findings.Select(static one => one.Rule).Distinct().Should().Contain(told.Distinct());
        told.Should().NotBeEmpty();
    }

    [Fact]
    public async Task MeasurementsBesides_AreRefused() =>
        (await RefusedCall.FieldsOfAsync(async () =>
        {
            using AsyncDuplexStreamingCall<DecodeRequest, WatchResponse> call = service.Client.Watch();
            await call.RequestStream.WriteAsync(new DecodeRequest
            {
                Options = new DecodeOptions { File = "c", Edition = "R9", Read = new ReadOptions { Measurements = new MeasurementJoin { File = "m" } } },
            });
            await call.ResponseStream.MoveNext(default);
        })).Should().BeEquivalentTo("options.read.measurements", "options.edition");

    private static DecodeRequest Data(string line) => new() { Data = ByteString.CopyFrom(line + "\n", Encoding.UTF8) };

    private async Task<DecodedCapture> WatchAsync(string[] lines, List<WatchResponse> answers)
    {
        using AsyncDuplexStreamingCall<DecodeRequest, WatchResponse> call = service.Client.Watch();
        await call.RequestStream.WriteAsync(new DecodeRequest { Options = new DecodeOptions { File = "c", Messages = true } });
        Task sending = Task.Run(async () =>
        {
            foreach (string line in lines)
            {
                await call.RequestStream.WriteAsync(Data(line));
            }

            await call.RequestStream.CompleteAsync();
        });
        while (await call.ResponseStream.MoveNext(default))
        {
            answers.Add(call.ResponseStream.Current);
        }

        await sending;
        return answers[^1].Capture;
    }

    private async Task<DecodedCapture> DecodeAsync(byte[] bytes)
    {
        using AsyncDuplexStreamingCall<DecodeRequest, DecodeResponse> call = service.Client.Decode();
        await call.RequestStream.WriteAsync(new DecodeRequest { Options = new DecodeOptions { File = "c" } });
        await call.RequestStream.WriteAsync(new DecodeRequest { Data = ByteString.CopyFrom(bytes) });
        await call.RequestStream.CompleteAsync();
        DecodedCapture capture = new();
        while (await call.ResponseStream.MoveNext(default))
        {
            capture = call.ResponseStream.Current.Capture ?? capture;
        }

        return capture;
    }
}
