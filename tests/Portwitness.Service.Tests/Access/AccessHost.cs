using System.Net.Security;
using System.Security.Cryptography.X509Certificates;
using Grpc.Core;
using Grpc.Net.Client;
using Microsoft.AspNetCore.Builder;
using Microsoft.Data.Sqlite;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;
using Portwitness.Contracts.V1;
using Portwitness.History;
using Portwitness.History.Stores;
using Portwitness.Service.Access;
using Portwitness.Service.Hosting;
using Portwitness.Service.Telemetry;
using Portwitness.Service.Validation;

namespace Portwitness.Service.Tests.Access;

/// <summary>A service with doors, as `serve` runs it, with a store and a folder of its own.</summary>
internal sealed class AccessHost : IAsyncDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("portwitness-doors-");
    private readonly List<GrpcChannel> _channels = [];
    private WebApplication _app = null!;

    public IReportStore Store { get; private set; } = null!;

    public TestAuthority Authority { get; } = new();

    public string Folder => _folder.FullName;

    public Uri Address => new(_app.Urls.Single());

    /// <summary>Where its certificate is, when it has one.</summary>
    public string CertificateFile => Path.Combine(Folder, "service.pem");

    public string KeyFile => Path.Combine(Folder, "service.key");

    /// <summary>Starts one.</summary>
    /// <param name="doors">Who is let in; "tls", "clients" and "tokens".</param>
    /// <param name="limits">What is accepted.</param>
    /// <param name="logs">Where log messages go.</param>
    /// <param name="telemetry">Where telemetry goes; null for nowhere.</param>
    public static async Task<AccessHost> StartAsync(string doors = "", ServiceLimits? limits = null, Action<ILoggingBuilder>? logs = null, TelemetrySettings? telemetry = null)
    {
        AccessHost host = new();
        host.Store = await ReportStores.OpenAsync(Path.Combine(host.Folder, "reports.db"), CancellationToken.None);
        bool isSecure = doors.Contains("tls", StringComparison.Ordinal);
        host.Renew(host.Authority.Sign("service", TestAuthority.ForServers));
        string authorities = Path.Combine(host.Folder, "clients.pem");
        await File.WriteAllTextAsync(authorities, host.Authority.Pem);
        AccessSettings settings = new()
        {
            Certificate = isSecure ? host.CertificateFile : null,
            Key = isSecure ? host.KeyFile : null,
            ClientAuthorities = doors.Contains("clients", StringComparison.Ordinal) ? authorities : null,
            RequireTokens = doors.Contains("tokens", StringComparison.Ordinal),
        };
        ListenAddress.TryParse($"{(isSecure ? "https" : "http")}://127.0.0.1:0", out ListenAddress? address, out _).Should().BeTrue();
        host._app = ServiceHost.Build([address!], limits ?? new ServiceLimits(), logs ?? (static _ => { }), host.Store, settings, telemetry);
        await host._app.StartAsync();
        return host;
    }

    public ServiceMetrics Metrics => _app.Services.GetRequiredService<ServiceMetrics>();

    /// <summary>Puts another certificate into the service's files.</summary>
    public void Renew(X509Certificate2 certificate)
    {
        File.WriteAllText(KeyFile, certificate.GetECDsaPrivateKey()!.ExportPkcs8PrivateKeyPem());
        File.WriteAllText(CertificateFile, certificate.ExportCertificatePem());
    }

    public async Task<string> NewTokenAsync(TokenRole role, DateTimeOffset? expires = null) =>
        (await Store.Tokens.CreateAsync("test", role, expires, CancellationToken.None)).Secret;

    /// <summary>A channel with connections of its own.</summary>
    /// <param name="shown">The client's certificate.</param>
    /// <param name="seen">Is told the certificate of the service.</param>
    public GrpcChannel Connect(X509Certificate2? shown = null, Action<X509Certificate2>? seen = null)
    {
        SslClientAuthenticationOptions tls = new()
        {
            ClientCertificates = shown is null ? null : [shown],
            CertificateChainPolicy = new X509ChainPolicy
            {
                TrustMode = X509ChainTrustMode.CustomRootTrust, CustomTrustStore = { Authority.Certificate }, RevocationMode = X509RevocationMode.NoCheck,
            },
            RemoteCertificateValidationCallback = (_, certificate, _, errors) =>
            {
                seen?.Invoke((X509Certificate2)certificate!);
                return errors == SslPolicyErrors.None;
            },
        };
        GrpcChannel channel = GrpcChannel.ForAddress(
            Address, new GrpcChannelOptions { HttpHandler = new SocketsHttpHandler { SslOptions = tls, UseProxy = false }, DisposeHttpClient = true });
        _channels.Add(channel);
        return channel;
    }

    /// <summary>A client on a channel of its own.</summary>
    public Witness.WitnessClient Client(X509Certificate2? shown = null) => new(Connect(shown));

    /// <summary>Takes the database away from the running service.</summary>
    public async Task BreakStoreAsync()
    {
        SqliteConnection.ClearAllPools();
        string place = Path.Combine(Folder, "reports.db");
        foreach (string file in new[] { place, place + "-wal", place + "-shm" })
        {
            File.Delete(file);
        }

        await File.WriteAllTextAsync(place, "no database");
    }

    public static Metadata Bearer(string token) => new() { { "authorization", $"Bearer {token}" } };

    public async ValueTask DisposeAsync()
    {
        _channels.ForEach(static channel => channel.Dispose());
        await _app.DisposeAsync();
        await Store.DisposeAsync();
        Authority.Dispose();
        _folder.Delete(recursive: true);
    }
}
