using Grpc.Core;
using Grpc.Core.Interceptors;
using Grpc.Net.Client;
using Polly;
using Portwitness.Contracts.V1;
using Portwitness.History;
using Portwitness.Service.Hosting;
using Portwitness.Service.Validation;

namespace Portwitness.Cli.Connection;

/// <summary>A way to the service, in this process or in another one.</summary>
internal sealed class ServiceConnection : IAsyncDisposable
{
    // A report of many captures is larger than the 4 MiB that a client takes by itself.
    private const int LargestAnswer = 256 << 20;

    private readonly GrpcChannel? _channel;

    private readonly IReportStore? _store;

    private ServiceConnection(CallInvoker service, GrpcChannel? channel, IReportStore? store, ResiliencePipeline again)
    {
        (_channel, _store, Again) = (channel, store, again);
        Client = new Witness.WitnessClient(service);
    }

    /// <summary>The service. Calls with one answer are made again when it was away.</summary>
    public Witness.WitnessClient Client { get; }

    /// <summary>Makes a whole dialogue again when the service was away; only for what can be sent twice, which a pipe cannot.</summary>
    public ResiliencePipeline Again { get; }

    /// <summary>Connects to the service that was named, or to one of this process when none was.</summary>
    /// <param name="server">The service; null for one of this process.</param>
    /// <param name="cancellation">Stops it.</param>
    /// <param name="store">Where a service of this process keeps reports; it is closed with the connection.</param>
    /// <param name="resilience">How a service that goes away is put up with.</param>
    /// <param name="onRetry">Told when it is away.</param>
    /// <param name="waits">Whether a service that does not answer at first is waited for, too; what is left to run by itself does.</param>
    public static async Task<ServiceConnection> OpenAsync(
        ServerAddress? server, CancellationToken cancellation, IReportStore? store = null, Resilience? resilience = null, Action<string>? onRetry = null, bool waits = false)
    {
        if (server is not null)
        {
            GrpcChannel remote = OpenChannel(server.Uri, RemoteService.CreateHandler(server));
            try
            {
                resilience ??= Resilience.Usual;
                ResiliencePipeline again = resilience.CreatePipeline(onRetry);
                await RemoteService.WaitUntilServingAsync(remote, server, waits ? again : null, cancellation);
                return new ServiceConnection(WithToken(remote.CreateCallInvoker()).Intercept(new ResilientCalls(again, resilience.AnswerTime)), remote, null, again);
            }
            catch
            {
                remote.Dispose();
                throw;
            }
        }

        return new ServiceConnection(ServiceHost.Embed(new ServiceLimits(), store), null, store, ResiliencePipeline.Empty);
    }

    public async ValueTask DisposeAsync()
    {
        _channel?.Dispose();
        if (_store is not null)
        {
            await _store.DisposeAsync();
        }
    }

    // On a channel without TLS, too: it may be a Unix socket, or loopback.
    private static CallInvoker WithToken(CallInvoker service) => ClientIdentity.Token is not { } token ? service
        : service.Intercept(metadata =>
        {
            metadata.Add("authorization", $"Bearer {token}");
            return metadata;
        });

    private static GrpcChannel OpenChannel(Uri address, HttpMessageHandler handler) => GrpcChannel.ForAddress(
        address,
        new GrpcChannelOptions { HttpHandler = handler, DisposeHttpClient = true, MaxReceiveMessageSize = LargestAnswer });
}
