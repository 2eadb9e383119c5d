using System.Net.Sockets;
using Grpc.Core;
using Grpc.Health.V1;
using Grpc.Net.Client;
using Polly;
using Polly.CircuitBreaker;
using Polly.Retry;
using Portwitness.Cli.Shell;
using Portwitness.Contracts.V1;

namespace Portwitness.Cli.Connection;

/// <summary>A service in another process. Only the first contact is retried: nothing was sent before it.</summary>
internal static class RemoteService
{
    private const int Tries = 3;
    private static readonly TimeSpan ConnectTime = TimeSpan.FromSeconds(5);
    private static readonly TimeSpan FirstPause = TimeSpan.FromMilliseconds(200);

    public static HttpMessageHandler CreateHandler(ServerAddress server)
    {
        SocketsHttpHandler handler = new()
        {
            ConnectTimeout = ConnectTime,
            UseProxy = false,
            ActivityHeadersPropagator = null,
            KeepAlivePingDelay = TimeSpan.FromSeconds(30),
            KeepAlivePingTimeout = TimeSpan.FromSeconds(20),
        };
        if (server.Uri.Scheme == Uri.UriSchemeHttps)
        {
            handler.SslOptions = ClientIdentity.TlsOptions();
        }

        if (server.SocketPath is { } path)
        {
            handler.ConnectCallback = (_, cancellation) => ConnectAsync(path, cancellation);
        }

        return handler;
    }

    /// <summary>Asks the service whether it serves; then <see cref="CommandFailure"/> with exit code 3.</summary>
    /// <param name="channel">The way to it.</param>
    /// <param name="server">Its address.</param>
    /// <param name="patience">How often it is asked; null for three tries, which tell a wrong address soon.</param>
    /// <param name="cancellation">Stops it.</param>
    public static async Task WaitUntilServingAsync(GrpcChannel channel, ServerAddress server, ResiliencePipeline? patience, CancellationToken cancellation)
    {
        ResiliencePipeline retry = patience ?? new ResiliencePipelineBuilder()
            .AddRetry(new RetryStrategyOptions
            {
                MaxRetryAttempts = Tries - 1,
                Delay = FirstPause,
                BackoffType = DelayBackoffType.Exponential,
                ShouldHandle = new PredicateBuilder().Handle<RpcException>(e => e.StatusCode == StatusCode.Unavailable),
            })
            .Build();
        Health.HealthClient health = new(channel);
        HealthCheckRequest request = new() { Service = Witness.Descriptor.FullName };
        try
        {
            HealthCheckResponse response = await retry.ExecuteAsync(
                async token => await health.CheckAsync(request, deadline: DateTime.UtcNow + ConnectTime, cancellationToken: token),
                cancellation);
            if (response.Status != HealthCheckResponse.Types.ServingStatus.Serving)
            {
                throw new CommandFailure($"the service at {server.Text} is not serving now; try again later.", ExitCode.NoService);
            }
        }
        catch (BrokenCircuitException)
        {
            throw new CommandFailure($"no service answers at {server.Text}. Run the same command again when it is there.", ExitCode.NoService);
        }
        catch (RpcException exception) when (!cancellation.IsCancellationRequested)
        {
            throw new CommandFailure(Explain(exception, server), ExitCode.NoService);
        }
    }

    private static string Explain(RpcException exception, ServerAddress server) => exception.StatusCode switch
    {
        StatusCode.Unauthenticated or StatusCode.PermissionDenied => $"{server.Text} refuses: {exception.Status.Detail}",
        StatusCode.Internal or StatusCode.Unavailable when exception.Status.DebugException?.InnerException is System.Security.Authentication.AuthenticationException tls =>
            $"{server.Text} cannot be trusted, or does not trust this client: {tls.Message} PORTWITNESS_CA, PORTWITNESS_CERTIFICATE and PORTWITNESS_KEY name PEM files.",
        StatusCode.Unavailable =>
            $"no service answers at {server.Text}. Start one with 'portwitness serve', or leave --server out.",
        StatusCode.DeadlineExceeded =>
            $"{server.Text} did not answer within {ConnectTime.TotalSeconds:0} s. Is it a Portwitness service?",
        _ => $"what answers at {server.Text} is no Portwitness service ({exception.StatusCode}).",
    };

    private static async ValueTask<Stream> ConnectAsync(string path, CancellationToken cancellation)
    {
        Socket socket = new(AddressFamily.Unix, SocketType.Stream, ProtocolType.Unspecified);
        try
        {
            await socket.ConnectAsync(new UnixDomainSocketEndPoint(path), cancellation);
            return new NetworkStream(socket, ownsSocket: true);
        }
        catch
        {
            socket.Dispose();
            throw;
        }
    }
}
