using Grpc.AspNetCore.Server;
using Grpc.Core;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.Features;
using Microsoft.AspNetCore.Server.Kestrel.Core.Features;
using Microsoft.Extensions.DependencyInjection;
using Portwitness.History;
using Portwitness.Service.Validation;

namespace Portwitness.Service.Access;

/// <summary>Puts the checks of a client before the service: who it is, how much it may use, what it may do.</summary>
internal static class AccessServices
{
    /// <summary>Adds what they need.</summary>
    /// <exception cref="AccessException">Tokens are asked for, and there is no store that could hold them.</exception>
    public static void AddTo(WebApplicationBuilder builder, AccessSettings settings, ServiceLimits limits, IReportStore? store)
    {
        if (settings.RequireTokens)
        {
            IReportStore tokens = store ?? throw new AccessException("tokens are kept in the store: --require-tokens needs one.");
            builder.Services.AddSingleton(new KnownTokens(tokens.Tokens, TimeProvider.System));
        }

        builder.Services.AddSingleton(settings);

        // The core alone: the rest protects cookies, with keys that it would write to disk.
        builder.Services.AddAuthenticationCore(static options => options.DefaultScheme = AccessHandler.SchemeName).AddWebEncoders();
        builder.Services.AddSingleton(TimeProvider.System);
        new AuthenticationBuilder(builder.Services).AddScheme<AuthenticationSchemeOptions, AccessHandler>(AccessHandler.SchemeName, null);
        builder.Services.AddAuthorization(static options => options.FallbackPolicy = new AuthorizationPolicyBuilder().RequireAuthenticatedUser().Build());
        builder.Services.AddRateLimiter(options => ClientLimits.Configure(options, limits));
    }

    /// <summary>Puts them in their order.</summary>
    public static void UseIn(WebApplication app)
    {
        app.UseRouting();
        long largest = app.Services.GetRequiredService<ServiceLimits>().HttpBodyBytes;
        app.Use((context, next) =>
        {
            LimitBody(context, largest);
            return next(context);
        });
        if (!app.Services.GetRequiredService<AccessSettings>().AreClosed)
        {
            app.Use(HostNames.CheckAsync);
        }

        app.UseAuthentication();
        app.UseRateLimiter();
        app.UseAuthorization();
        app.Use(UnreadMessages.RefuseAsync);
    }

    /// <summary>What kind of call a request is; null when it is none.</summary>
    public static MethodType? MethodTypeOf(HttpContext context) => context.GetEndpoint()?.Metadata.GetMetadata<GrpcMethodMetadata>()?.Method.Type;

    // Streams may pause, as long as PatientStreams lets them. Anything else has to come at Kestrel's usual pace at least. gRPC measures message by
    // message, and tells which is too large; where it is not spoken, the whole is measured.
    private static void LimitBody(HttpContext context, long largest)
    {
        bool isStream = MethodTypeOf(context) is MethodType.ClientStreaming or MethodType.DuplexStreaming;
        if (isStream && context.Features.Get<IHttpMinRequestBodyDataRateFeature>() is { } pace)
        {
            pace.MinDataRate = null;
        }

        if (!Refusal.IsGrpc(context.Request) && context.Features.Get<IHttpMaxRequestBodySizeFeature>() is { IsReadOnly: false } size)
        {
            size.MaxRequestBodySize = largest;
        }
    }
}
