using Grpc.AspNetCore.Server;
using Grpc.Core;
using Grpc.Core.Interceptors;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;
using Portwitness.Service.Telemetry;

namespace Portwitness.Service.Access;

/// <summary>
/// Counts and logs messages that come alone and that gRPC refuses before the service sees them: too large, or none of the contract. Those of
/// streams are read by the service's own calls, which count them.
/// </summary>
internal sealed class UnreadMessages : Interceptor
{
    /// <summary>What is said of a message that is none of the contract.</summary>
    public const string Malformed = "A message cannot be read: it is none of this contract.";

    private static readonly object IsRead = new();

    /// <summary>Runs around a call.</summary>
    public static async Task RefuseAsync(HttpContext context, RequestDelegate next)
    {
        await next(context);
        if (context.Items.ContainsKey(IsRead) || context.RequestAborted.IsCancellationRequested
            || AccessServices.MethodTypeOf(context) is not (MethodType.Unary or MethodType.ServerStreaming)
            || context.Features.Get<IServerCallContextFeature>()?.ServerCallContext.Status is not { } status)
        {
            return;
        }

        // Nothing but reading comes before the call itself, and gRPC calls what cannot be read Unknown.
        if (status.StatusCode == StatusCode.Unknown && !context.Response.HasStarted)
        {
            status = new Status(StatusCode.InvalidArgument, Malformed);
            await Refusal.WriteAsync(context, RejectionReason.Invalid, status.StatusCode, status.Detail);
        }
        else if (status.StatusCode.Reason() is { } reason)
        {
            context.RequestServices.GetRequiredService<ServiceMetrics>().Rejected(reason);
        }

        ILogger logger = context.RequestServices.GetRequiredService<ILoggerFactory>().CreateLogger(Log.Category);
        Log.Refused(logger, LogText.Of(status.Detail));
    }

    /// <inheritdoc/>
    public override Task<TResponse> UnaryServerHandler<TRequest, TResponse>(
        TRequest request, ServerCallContext context, UnaryServerMethod<TRequest, TResponse> continuation)
    {
        context.GetHttpContext().Items[IsRead] = true;
        return continuation(request, context);
    }

    /// <inheritdoc/>
    public override Task ServerStreamingServerHandler<TRequest, TResponse>(
        TRequest request, IServerStreamWriter<TResponse> responseStream, ServerCallContext context, ServerStreamingServerMethod<TRequest, TResponse> continuation)
    {
        context.GetHttpContext().Items[IsRead] = true;
        return continuation(request, responseStream, context);
    }
}
