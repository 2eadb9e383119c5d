using Grpc.Core;
using Grpc.HealthCheck;
using Grpc.Reflection;
using Grpc.Reflection.V1Alpha;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Server.Kestrel.Core;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;
using Microsoft.Extensions.Logging.Abstractions;
using Portwitness.Contracts.V1;
using Portwitness.History;
using Portwitness.Service.Access;
using Portwitness.Service.Telemetry;
using Portwitness.Service.Validation;
using Portwitness.Service.Working;

namespace Portwitness.Service.Hosting;

/// <summary>Builds the server: Kestrel with HTTP/2 alone, and as little else as gRPC needs.</summary>
public static class ServiceHost
{
    /// <summary>Roles that may read, as an authorization attribute has them.</summary>
    public const string ReaderRoles = AccessRoles.Readers;

    /// <summary>A server for other processes, with health and reflection.</summary>
    /// <param name="addresses">Where to listen, at least one.</param>
    /// <param name="limits">What to accept.</param>
    /// <param name="configureLogging">Where log messages go.</param>
    /// <param name="store">Where reports are kept; null when they are not. The caller closes it.</param>
    /// <param name="access">Who is let in; null for everybody who can reach it.</param>
    /// <param name="telemetry">Where telemetry goes; null exports none, whatever the environment says.</param>
    /// <param name="work">How what is submitted is worked on; null when nothing can be. It needs a store.</param>
    /// <param name="extension">What is served beside gRPC; null for nothing.</param>
    /// <exception cref="AccessException">An address may not be listened at like that, or a certificate cannot be read.</exception>
    public static WebApplication Build(
        IReadOnlyList<ListenAddress> addresses, ServiceLimits limits, Action<ILoggingBuilder> configureLogging, IReportStore? store = null,
        AccessSettings? access = null, TelemetrySettings? telemetry = null, ServiceWork? work = null, ServiceExtension? extension = null)
    {
        AccessSettings settings = access ?? new AccessSettings();
        if (addresses.Concat(extension?.Addresses ?? []).Select(settings.ProblemWith).FirstOrDefault(static problem => problem is not null) is { } problem)
        {
            throw new AccessException(problem);
        }

        WebApplicationBuilder builder = CreateBuilder(limits);
        AccessServices.AddTo(builder, settings, limits, store);
        TlsListener? tls = settings.Certificate is null ? null : new TlsListener(settings);
        if (store is not null)
        {
            builder.Services.AddSingleton(store);
        }

        if (store is not null && work is not null)
        {
            work.AddTo(builder.Services);
        }

        configureLogging(builder.Logging);
        // Below warnings these write requests and refusals as clients sent them; the service logs each call itself.
        builder.Logging.AddFilter("Grpc.AspNetCore", LogLevel.Warning).AddFilter("Microsoft.AspNetCore.Hosting", LogLevel.Warning);
        if (telemetry is not null)
        {
            TelemetryExport.AddTo(builder, telemetry);
        }

        builder.WebHost.ConfigureKestrel(kestrel =>
        {
            foreach (ListenAddress address in addresses)
            {
                Listen(kestrel, address, address.IsSecure && extension is not null ? HttpProtocols.Http1AndHttp2 : HttpProtocols.Http2, tls);
            }

            foreach (ListenAddress address in extension?.Addresses ?? [])
            {
                Listen(kestrel, address, HttpProtocols.Http1, tls);
            }
        });

        builder.Services.AddSingleton<HealthServiceImpl>().AddSingleton<Readiness>().AddHostedService(static services => services.GetRequiredService<Readiness>());
        // Given the descriptors, the reflection service looks nothing up by .NET reflection.
        builder.Services.AddSingleton(new ReflectionServiceImpl(
            Witness.Descriptor, Grpc.Health.V1.Health.Descriptor, ServerReflection.Descriptor));

        extension?.Configure(builder);
        WebApplication app = builder.Build();
        AccessServices.UseIn(app);
        app.MapGrpcService<WitnessService>();
        app.MapGrpcService<HealthServiceImpl>().AllowAnonymous();
        app.MapGrpcService<ReflectionServiceImpl>();
        extension?.Map(app);
        return app;
    }

    private static void Listen(KestrelServerOptions kestrel, ListenAddress address, HttpProtocols protocols, TlsListener? tls)
    {
        if (address.SocketPath is { } path)
        {
            kestrel.ListenUnixSocket(path, listen => listen.Protocols = protocols);
            return;
        }

        kestrel.Listen(address.Tcp!, listen =>
        {
            listen.Protocols = protocols;
            if (address.IsSecure)
            {
                tls!.AddTo(listen);
            }
        });
    }

    /// <summary>The service within this process; nobody else can reach it.</summary>
    /// <param name="limits">What to accept.</param>
    /// <param name="store">Where reports are kept; null when they are not. The caller closes it.</param>
    public static CallInvoker Embed(ServiceLimits limits, IReportStore? store = null) =>
        new InProcessInvoker(new WitnessService(limits, NullLogger<WitnessService>.Instance, new ServiceMetrics(), store));

    private static WebApplicationBuilder CreateBuilder(ServiceLimits limits)
    {
        WebApplicationBuilder builder = WebApplication.CreateEmptyBuilder(new WebApplicationOptions());
        builder.WebHost.UseKestrelCore().UseKestrelHttpsConfiguration().ConfigureKestrel(kestrel =>
        {
            kestrel.Limits.MaxConcurrentConnections = limits.Connections;
            kestrel.Limits.Http2.MaxStreamsPerConnection = limits.CallsAtOnce;
            kestrel.AddServerHeader = false;
            // Captures are read as they come, at the pace of whatever records them; AccessServices limits the rest.
            kestrel.Limits.MaxRequestBodySize = null;
            // A peer that is gone without a word is noticed.
            kestrel.Limits.Http2.KeepAlivePingDelay = TimeSpan.FromSeconds(30);
            kestrel.Limits.Http2.KeepAlivePingTimeout = TimeSpan.FromSeconds(20);
        });
        builder.Services.AddRoutingCore();
        builder.Services.AddSingleton(limits);
        builder.Services.AddSingleton<ServiceMetrics>();
        builder.Services.AddSingleton<WitnessService>();
        builder.Services.AddGrpc(grpc =>
        {
            grpc.MaxReceiveMessageSize = limits.MessageBytes;
            grpc.MaxSendMessageSize = null;
            grpc.Interceptors.Add<PatientStreams>();
            grpc.Interceptors.Add<UnreadMessages>();
        });
        return builder;
    }
}
