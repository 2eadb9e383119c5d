using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;
using Portwitness.Queue;

namespace Portwitness.Service.Working;

/// <summary>The work on what is submitted.</summary>
/// <param name="Queue">Where it waits. The caller closes it.</param>
/// <param name="Settings">How it is done.</param>
public sealed record ServiceWork(IWorkQueue Queue, WorkSettings Settings)
{
    // Work that was broken off is given back after the drain; that takes a moment, too.
    private static readonly TimeSpan GivingBack = TimeSpan.FromSeconds(10);

    internal void AddTo(IServiceCollection services)
    {
        services.AddSingleton(Queue).AddSingleton(Settings);
        services.AddHostedService<Sweeper>().AddHostedService<Worker>();
        services.Configure<HostOptions>(host => (host.ServicesStopConcurrently, host.ShutdownTimeout) = (true, Settings.Drain + GivingBack));
    }
}
