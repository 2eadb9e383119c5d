using System.IO.Pipelines;
using System.Net;
using System.Net.Sockets;
using System.Threading.Channels;
using Microsoft.AspNetCore.Connections;

namespace Portwitness.Service.Hosting;

/// <summary>Connections within one process, over pipes: no port, no socket file, nothing left behind.</summary>
public sealed class InMemoryTransport : IConnectionListenerFactory, IConnectionListener
{
    private readonly Channel<ConnectionContext> _waiting = Channel.CreateUnbounded<ConnectionContext>();

    /// <inheritdoc/>
    public EndPoint EndPoint { get; } = new InProcessEndPoint();

    /// <summary>Connects to the server of this process.</summary>
    public Stream Connect()
    {
        Pipe toServer = new();
        Pipe toClient = new();
        PipePair server = new(toServer.Reader, toClient.Writer);
        PipePair client = new(toClient.Reader, toServer.Writer);
        InProcessConnection connection = new(server, client);
        if (!_waiting.Writer.TryWrite(connection))
        {
            throw new IOException("The service of this process has stopped.");
        }

        return new PipePairStream(client);
    }

    /// <inheritdoc/>
    public ValueTask<IConnectionListener> BindAsync(EndPoint endpoint, CancellationToken cancellationToken = default) =>
        ValueTask.FromResult<IConnectionListener>(this);

    /// <inheritdoc/>
    public async ValueTask<ConnectionContext?> AcceptAsync(CancellationToken cancellationToken = default)
    {
        try
        {
            return await _waiting.Reader.ReadAsync(cancellationToken);
        }
        catch (ChannelClosedException)
        {
            return null;
        }
    }

    /// <inheritdoc/>
    public ValueTask UnbindAsync(CancellationToken cancellationToken = default)
    {
        _waiting.Writer.TryComplete();
        return ValueTask.CompletedTask;
    }

    /// <inheritdoc/>
    public ValueTask DisposeAsync() => UnbindAsync();

    // The connection class of the framework cancels its source later than Abort and may have disposed of it by then.
    private sealed class InProcessConnection : DefaultConnectionContext
    {
        private readonly CancellationTokenSource _closed = new();

        public InProcessConnection(IDuplexPipe server, IDuplexPipe client)
            : base("in-process", server, client) => ConnectionClosed = _closed.Token;

        public override void Abort(ConnectionAbortedException abortReason) => _ = _closed.CancelAsync();
    }

    private sealed record PipePair(PipeReader Input, PipeWriter Output) : IDuplexPipe;

    private sealed class InProcessEndPoint : EndPoint
    {
        public override AddressFamily AddressFamily => AddressFamily.Unspecified;

        public override string ToString() => "in-process";
    }
}
