using Grpc.Net.Client;
using Microsoft.AspNetCore.Builder;
using Portwitness.Contracts.V1;
using Portwitness.Service.Access;
using Portwitness.Service.Hosting;
using Portwitness.Service.Validation;

namespace Portwitness.Service.Tests;

/// <summary>The service as `serve` runs it, on a free port of the loopback, and a real channel to it.</summary>
public sealed class ServiceFixture : IAsyncLifetime
{
    private WebApplication _app = null!;

    public GrpcChannel Channel { get; private set; } = null!;

    public Witness.WitnessClient Client => new(Channel);

    public async Task InitializeAsync()
    {
        ListenAddress.TryParse("http://127.0.0.1:0", out ListenAddress? address, out _).Should().BeTrue();
        _app = ServiceHost.Build([address!], new ServiceLimits { FilesPerProduct = 4 }, _ => { });
        await _app.StartAsync();
        Channel = GrpcChannel.ForAddress(_app.Urls.Single());
    }

    public async Task DisposeAsync()
    {
        Channel.Dispose();
        await _app.DisposeAsync();
    }
}
