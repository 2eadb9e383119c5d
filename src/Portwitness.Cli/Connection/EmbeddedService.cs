using Microsoft.AspNetCore.Builder;
using Portwitness.Service;
using Portwitness.Service.Hosting;

namespace Portwitness.Cli.Connection;

/// <summary>The service inside this process; it ends with the command.</summary>
internal sealed class EmbeddedService : IAsyncDisposable
{
    private readonly InMemoryTransport _transport;
    private readonly WebApplication _app;

    private EmbeddedService(InMemoryTransport transport, WebApplication app)
    {
        _transport = transport;
        _app = app;
    }

    public static async Task<EmbeddedService> StartAsync(CancellationToken cancellation)
    {
        InMemoryTransport transport = new();
        WebApplication app = ServiceHost.BuildEmbedded(transport, new ServiceLimits());
        await app.StartAsync(cancellation);
        return new EmbeddedService(transport, app);
    }

    public HttpMessageHandler CreateHandler() => new SocketsHttpHandler
    {
        ConnectCallback = (_, _) => ValueTask.FromResult(_transport.Connect()),
        UseProxy = false,
        ActivityHeadersPropagator = null,
    };

    public ValueTask DisposeAsync() => _app.DisposeAsync();
}
