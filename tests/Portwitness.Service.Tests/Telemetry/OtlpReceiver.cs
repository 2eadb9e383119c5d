using System.Buffers.Binary;
using System.Collections.Concurrent;
using Google.Protobuf;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Server.Kestrel.Core;
using Portwitness.Service.Telemetry;

namespace Portwitness.Service.Tests.Telemetry;

/// <summary>
/// A collector of OpenTelemetry on a free port: takes exports as the OTLP specification has them, over gRPC
/// (opentelemetry/proto/collector/*/v1/*_service.proto, method Export) or as HTTP requests to /v1/*.
/// </summary>
internal sealed class OtlpReceiver : IAsyncDisposable
{
    private const int FrameHeader = 5;

    private readonly WebApplication _app;
    private readonly ConcurrentQueue<(string Signal, ByteString Request)> _received = [];

    private OtlpReceiver(OtlpProtocol protocol)
    {
        WebApplicationBuilder builder = WebApplication.CreateEmptyBuilder(new WebApplicationOptions());
        builder.WebHost.UseKestrelCore().ConfigureKestrel(kestrel => kestrel.Listen(
            System.Net.IPAddress.Loopback, 0,
            listen => listen.Protocols = protocol == OtlpProtocol.Grpc ? HttpProtocols.Http2 : HttpProtocols.Http1));
        _app = builder.Build();
        _app.Run(protocol == OtlpProtocol.Grpc ? TakeGrpcAsync : TakeHttpAsync);
    }

    public Uri Address => new(_app.Urls.Single());

    /// <summary>Values of the header with which an exporter shows who it is.</summary>
    public ConcurrentBag<string> Keys { get; } = [];

    /// <summary>All bytes, each as one character.</summary>
    public IEnumerable<string> Raw => _received.Select(one => System.Text.Encoding.Latin1.GetString(one.Request.Span));

    public static async Task<OtlpReceiver> StartAsync(OtlpProtocol protocol)
    {
        OtlpReceiver receiver = new(protocol);
        await receiver._app.StartAsync();
        return receiver;
    }

    /// <summary>What came of "metrics", "traces" or "logs".</summary>
    public IEnumerable<WireMessage> Of(string signal) =>
        _received.Where(one => one.Signal == signal).Select(one => new WireMessage(one.Request));

    public ValueTask DisposeAsync() => _app.DisposeAsync();

    private async Task TakeHttpAsync(HttpContext context)
    {
        context.Request.ContentType.Should().Be("application/x-protobuf");
        string path = context.Request.Path.Value!;
        Take(context, path[(path.LastIndexOf('/') + 1)..], await ReadAsync(context));
        context.Response.ContentType = "application/x-protobuf";
    }

    private async Task TakeGrpcAsync(HttpContext context)
    {
        ByteString body = await ReadAsync(context);
        int length = BinaryPrimitives.ReadInt32BigEndian(body.Span[1..FrameHeader]);
        body.Length.Should().Be(FrameHeader + length);
        Take(context, SignalOf(context.Request.Path.Value!), ByteString.CopyFrom(body.Span[FrameHeader..]));
        context.Response.ContentType = "application/grpc";
        // The answer, Export*ServiceResponse, has nothing that must be set: a frame of no bytes.
        await context.Response.Body.WriteAsync(new byte[FrameHeader]);
        context.Response.AppendTrailer("grpc-status", "0");
    }

    private static string SignalOf(string path) => path switch
    {
        "/opentelemetry.proto.collector.metrics.v1.MetricsService/Export" => "metrics",
        "/opentelemetry.proto.collector.trace.v1.TraceService/Export" => "traces",
        "/opentelemetry.proto.collector.logs.v1.LogsService/Export" => "logs",
        _ => path,
    };

    private static async Task<ByteString> ReadAsync(HttpContext context) =>
        await ByteString.FromStreamAsync(context.Request.Body, context.RequestAborted);

    private void Take(HttpContext context, string signal, ByteString request)
    {
        Keys.Add(context.Request.Headers["x-collector-key"].ToString());
        _received.Enqueue((signal, request));
    }
}
