using Grpc.Core;
using Grpc.Net.Client;
using Portwitness.Contracts.V1;
using Portwitness.Service;
using Portwitness.Service.Hosting;

namespace Portwitness.Cli.Connection;

/// <summary>A way to the service, in this process or in another one.</summary>
internal sealed class ServiceConnection : IAsyncDisposable
{
    // A report of many captures is larger than the 4 MiB that a client takes by itself.
    private const int LargestAnswer = 256 << 20;

    private readonly GrpcChannel? _channel;

    private ServiceConnection(CallInvoker service, GrpcChannel? channel)
    {
        _channel = channel;
        Client = new Witness.WitnessClient(service);
    }

    public Witness.WitnessClient Client { get; }

    /// <summary>Connects to the service that was named, or to one of this process when none was.</summary>
    public static async Task<ServiceConnection> OpenAsync(ServerAddress? server, CancellationToken cancellation)
    {
        if (server is not null)
        {
            GrpcChannel remote = OpenChannel(server.Uri, RemoteService.CreateHandler(server));
            try
            {
                await RemoteService.WaitUntilServingAsync(remote, server, cancellation);
                return new ServiceConnection(remote.CreateCallInvoker(), remote);
            }
            catch
            {
                remote.Dispose();
                throw;
            }
        }

        return new ServiceConnection(ServiceHost.Embed(new ServiceLimits()), null);
    }

    public ValueTask DisposeAsync()
    {
        _channel?.Dispose();
        return ValueTask.CompletedTask;
    }

    private static GrpcChannel OpenChannel(Uri address, HttpMessageHandler handler) => GrpcChannel.ForAddress(
        address,
        new GrpcChannelOptions { HttpHandler = handler, DisposeHttpClient = true, MaxReceiveMessageSize = LargestAnswer });
}
