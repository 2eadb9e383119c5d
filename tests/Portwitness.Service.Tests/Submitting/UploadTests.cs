using System.Security.Cryptography;
using Google.Protobuf;
using Grpc.Core;
using Portwitness.Contracts.V1;
using Portwitness.Service.Validation;

namespace Portwitness.Service.Tests.Submitting;

/// <summary>Uploads that stop and go on.</summary>
public sealed class UploadTests
{
    private static readonly byte[] Content = [.. Enumerable.Range(0, (5 << 20) / 2).Select(static number => (byte)(number * 31 / 7))];

    private static string Hash => Convert.ToHexStringLower(SHA256.HashData(Content));

    [Fact]
    public async Task BrokenUpload_GoesOnAtTheAcknowledgedOffset()
    {
        await using SubmittingService service = await SubmittingService.StartAsync();
        long acknowledged;
        using (AsyncDuplexStreamingCall<UploadRequest, UploadResponse> broken = service.Client.Upload())
        {
            await StartAsync(broken, Hash, Content.Length);
            (await NextAsync(broken)).Offset.Should().Be(0);
            await broken.RequestStream.WriteAsync(Piece(0, 1 << 20));
            acknowledged = (await NextAsync(broken)).Offset;
        }

        using AsyncDuplexStreamingCall<UploadRequest, UploadResponse> call = service.Client.Upload();
        await StartAsync(call, Hash, Content.Length);
        long offset = (await NextAsync(call)).Offset;
        for (long sent = offset; sent < Content.Length; sent += 1 << 19)
        {
            await call.RequestStream.WriteAsync(Piece(sent, 1 << 19));
        }

        UploadResponse last = await LastAsync(call);

        (acknowledged, offset).Should().Be((1 << 20, 1 << 20));
        (last.Offset, last.Complete).Should().Be((Content.Length, true));
        using AsyncDuplexStreamingCall<UploadRequest, UploadResponse> third = service.Client.Upload();
        await StartAsync(third, Hash, Content.Length);
        (await NextAsync(third)).Complete.Should().BeTrue("it is there");
    }

    [Fact]
    public async Task UploadedCapture_IsJudgedLikeOneInTheRequest()
    {
        await using SubmittingService service = await SubmittingService.StartAsync();
        SubmitRequest request = SubmittingService.Demo("broken-tp20");
        ProductReport expected = await service.Client.CheckProductAsync(request);
        foreach (SubmittedFile file in request.Files)
        {
            ByteString data = file.Data;
            file.Sha256 = Convert.ToHexStringLower(SHA256.HashData(data.Span));
            using AsyncDuplexStreamingCall<UploadRequest, UploadResponse> call = service.Client.Upload();
            await StartAsync(call, file.Sha256, data.Length);
            await call.RequestStream.WriteAsync(new UploadRequest { Data = data });
            (await LastAsync(call)).Complete.Should().BeTrue();
        }

        (await service.Client.CheckProductAsync(request)).Should().Be(expected);
        Submission done = await service.WaitForAsync((await service.Client.SubmitAsync(request)).Key);
        (await service.Client.GetReportAsync(new GetReportRequest { Id = done.ReportId })).Findings.Should().Equal(expected.Findings);
        (await service.Client.SubmitAsync(SubmittingService.Demo("broken-tp20"))).Key.Should().Be(done.Key, "how the bytes came does not count");
    }

    [Fact]
    public async Task CallThatIsOvertakenByAnother_HearsTheSameSuccess()
    {
        await using SubmittingService service = await SubmittingService.StartAsync();
        using AsyncDuplexStreamingCall<UploadRequest, UploadResponse> slow = service.Client.Upload();
        await StartAsync(slow, Hash, Content.Length);
        (await NextAsync(slow)).Offset.Should().Be(0);
        using AsyncDuplexStreamingCall<UploadRequest, UploadResponse> quick = service.Client.Upload();
        await StartAsync(quick, Hash, Content.Length);
        for (int sent = 0; sent < Content.Length; sent += 1 << 20)
        {
            await quick.RequestStream.WriteAsync(Piece(sent, 1 << 20));
        }

        (await LastAsync(quick)).Complete.Should().BeTrue();
        await slow.RequestStream.WriteAsync(Piece(0, 1 << 20));

        UploadResponse last = await LastAsync(slow);
        (last.Offset, last.Complete).Should().Be((Content.Length, true));
    }

    [Fact]
    public async Task CallThatAnotherGetsBefore_IsAborted_AndGoesOnWhereThatIs()
    {
        await using SubmittingService service = await SubmittingService.StartAsync();
        using AsyncDuplexStreamingCall<UploadRequest, UploadResponse> slow = service.Client.Upload();
        await StartAsync(slow, Hash, Content.Length);
        (await NextAsync(slow)).Offset.Should().Be(0);
        using AsyncDuplexStreamingCall<UploadRequest, UploadResponse> quick = service.Client.Upload();
        await StartAsync(quick, Hash, Content.Length);
        await NextAsync(quick);
        await quick.RequestStream.WriteAsync(Piece(0, 1 << 20));
        (await NextAsync(quick)).Offset.Should().Be(1 << 20);

        await slow.RequestStream.WriteAsync(Piece(0, 1 << 20));
        (await Assert.ThrowsAsync<RpcException>(() => LastAsync(slow))).StatusCode.Should().Be(StatusCode.Aborted);

        using AsyncDuplexStreamingCall<UploadRequest, UploadResponse> again = service.Client.Upload();
        await StartAsync(again, Hash, Content.Length);
        (await NextAsync(again)).Offset.Should().Be(1 << 20);
    }

    [Fact]
    public async Task OtherBytesThanWereSaid_AreDropped()
    {
        await using SubmittingService service = await SubmittingService.StartAsync();
        using AsyncDuplexStreamingCall<UploadRequest, UploadResponse> call = service.Client.Upload();
        await StartAsync(call, new string('a', 64), 4);
        await call.RequestStream.WriteAsync(new UploadRequest { Data = ByteString.CopyFromUtf8("abcd") });

        (await Assert.ThrowsAsync<RpcException>(() => LastAsync(call))).StatusCode.Should().Be(StatusCode.DataLoss);

        (await service.Store.Uploads.FindMissingAsync([new string('a', 64)], default)).Should().ContainSingle();
    }

    [Fact]
    public async Task WrongUploads_AreRefused()
    {
        await using SubmittingService service = await SubmittingService.StartAsync(limits: new ServiceLimits { UploadBytes = 100 });

        (await RefusalAsync(service, [new UploadRequest { Data = ByteString.CopyFromUtf8("x") }])).Should().Contain("start: missing");
        (await RefusalAsync(service, [Start("x", 0)])).Should().Contain("start.sha256").And.Contain("start.bytes");
        (await RefusalAsync(service, [Start(Hash, 101)])).Should().Contain("at most 100");
        (await RefusalAsync(service, [Start(Hash, 10), Start(Hash, 10)])).Should().Contain("sent twice");
        (await RefusalAsync(service, [Start(Hash, 10), new UploadRequest { Data = ByteString.CopyFrom(new byte[11]) }])).Should().Contain("beyond the 10 bytes");
        (await RefusalAsync(service, [Start(Hash, long.MaxValue)])).Should().Contain("at most 100");
    }

    private static async Task<string> RefusalAsync(SubmittingService service, UploadRequest[] requests)
    {
        using AsyncDuplexStreamingCall<UploadRequest, UploadResponse> call = service.Client.Upload();
        foreach (UploadRequest request in requests)
        {
            await call.RequestStream.WriteAsync(request);
        }

        RpcException refused = await Assert.ThrowsAsync<RpcException>(() => LastAsync(call));
        refused.StatusCode.Should().Be(StatusCode.InvalidArgument);
        return refused.Status.Detail;
    }

    private static UploadRequest Start(string hash, long bytes) => new() { Start = new UploadStart { Sha256 = hash, Bytes = bytes } };

    private static Task StartAsync(AsyncDuplexStreamingCall<UploadRequest, UploadResponse> call, string hash, long bytes) => call.RequestStream.WriteAsync(Start(hash, bytes));

    private static UploadRequest Piece(long start, int length) =>
        new() { Data = ByteString.CopyFrom(Content.AsSpan((int)start, Math.Min(length, Content.Length - (int)start))) };

    private static async Task<UploadResponse> NextAsync(AsyncDuplexStreamingCall<UploadRequest, UploadResponse> call)
    {
        (await call.ResponseStream.MoveNext(default)).Should().BeTrue();
        return call.ResponseStream.Current;
    }

    private static async Task<UploadResponse> LastAsync(AsyncDuplexStreamingCall<UploadRequest, UploadResponse> call)
    {
        UploadResponse last = new();
        while (await call.ResponseStream.MoveNext(default))
        {
            last = call.ResponseStream.Current;
        }

        return last;
    }
}
