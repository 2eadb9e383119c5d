using Grpc.HealthCheck;
using Microsoft.Extensions.Hosting;
using Portwitness.Contracts.V1;
using Portwitness.History;
using HealthStatus = Grpc.Health.V1.HealthCheckResponse.Types.ServingStatus;

namespace Portwitness.Service.Hosting;

/// <summary>
/// Whether the service can do its work now: its store answers, and it is not being stopped. gRPC health tells it of the service's name; of the
/// empty name it tells that the process lives.
/// </summary>
public sealed class Readiness : BackgroundService
{
    private static readonly TimeSpan Pause = TimeSpan.FromSeconds(3);
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(5);

    private readonly HealthServiceImpl _health;
    private readonly IReportStore? _store;
    private readonly CancellationTokenRegistration _stopping;
    private volatile bool _isStopping;

    /// <summary>Begins as ready.</summary>
    public Readiness(HealthServiceImpl health, IHostApplicationLifetime lifetime, IReportStore? store = null)
    {
        (_health, _store) = (health, store);
        _health.SetStatus("", HealthStatus.Serving);
        _health.SetStatus(Witness.Descriptor.FullName, HealthStatus.Serving);

        _stopping = lifetime.ApplicationStopping.Register(Leave);
    }

    /// <summary>From now on it tells that it is not ready, whatever it still does.</summary>
    public void Leave()
    {
        _isStopping = true;
        _health.SetStatus(Witness.Descriptor.FullName, HealthStatus.NotServing);
    }

    /// <summary>Asks now.</summary>
    /// <returns>Why it is not ready, in words that hold no secret; null when it is.</returns>
    public async Task<string?> ProblemAsync(CancellationToken cancellation)
    {
        if (_isStopping)
        {
            return "is being stopped";
        }

        if (_store is null)
        {
            return null;
        }

        using CancellationTokenSource patience = CancellationTokenSource.CreateLinkedTokenSource(cancellation);
        patience.CancelAfter(Patience);
        try
        {
            // A number that no report has: nothing but the way there and back.
            await _store.FindAsync(0, patience.Token);
            return null;
        }
        catch (StoreException exception)
        {
            return exception.Message;
        }
        catch (OperationCanceledException) when (!cancellation.IsCancellationRequested)
        {
            return $"{_store.Place}: does not answer.";
        }
    }

    /// <inheritdoc/>
    public override void Dispose()
    {
        _stopping.Dispose();
        base.Dispose();
    }

    /// <inheritdoc/>
    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        using PeriodicTimer timer = new(Pause);
        try
        {
            do
            {
                bool isReady = await ProblemAsync(stoppingToken) is null && !_isStopping;
                _health.SetStatus(Witness.Descriptor.FullName, isReady ? HealthStatus.Serving : HealthStatus.NotServing);
            }
            while (await timer.WaitForNextTickAsync(stoppingToken));
        }
        catch (OperationCanceledException)
        {
        }
    }
}
