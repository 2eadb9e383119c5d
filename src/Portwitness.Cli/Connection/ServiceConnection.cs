using Grpc.Net.Client;
using Portwitness.Contracts.V1;

namespace Portwitness.Cli.Connection;

/// <summary>A way to the service, in this process or in another one.</summary>
internal sealed class ServiceConnection : IAsyncDisposable
{
    // A report of many captures is larger than the 4 MiB that a client takes by itself.
    private const int LargestAnswer = 256 << 20;

    private readonly GrpcChannel _channel;
    private readonly IAsyncDisposable? _server;

    private ServiceConnection(GrpcChannel channel, IAsyncDisposable? server)
    {
        _channel = channel;
        _server = server;
        Client = new Witness.WitnessClient(channel);
    }

    public Witness.WitnessClient Client { get; }

    /// <summary>Connects to the service that was named, or to one of this process when none was.</summary>
    public static async Task<ServiceConnection> OpenAsync(ServerAddress? server, CancellationToken cancellation)
    {
        if (server is not null)
        {
            GrpcChannel remote = OpenChannel(server.Uri, RemoteService.CreateHandler(server));
            ServiceConnection connection = new(remote, null);
            try
            {
                await RemoteService.WaitUntilServingAsync(remote, server, cancellation);
                return connection;
            }
            catch
            {
                await connection.DisposeAsync();
                throw;
            }
        }

        EmbeddedService embedded = await EmbeddedService.StartAsync(cancellation);
        return new ServiceConnection(OpenChannel(new Uri("http://in-process"), embedded.CreateHandler()), embedded);
    }

    public async ValueTask DisposeAsync()
    {
        _channel.Dispose();
        if (_server is not null)
        {
            await _server.DisposeAsync();
        }
    }

    private static GrpcChannel OpenChannel(Uri address, HttpMessageHandler handler) => GrpcChannel.ForAddress(
        address,
        new GrpcChannelOptions { HttpHandler = handler, DisposeHttpClient = true, MaxReceiveMessageSize = LargestAnswer });
}
