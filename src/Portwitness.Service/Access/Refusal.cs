using System.Globalization;
using Google.Protobuf;
using Google.Protobuf.WellKnownTypes;
using Grpc.Core;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.DependencyInjection;
using Portwitness.Service.Telemetry;

namespace Portwitness.Service.Access;

/// <summary>Refuses a request before any service sees it, as gRPC or as HTTP, whichever it is.</summary>
internal static class Refusal
{
    private const string Grpc = "application/grpc";

    /// <summary>Whether a request speaks gRPC.</summary>
    public static bool IsGrpc(HttpRequest request) => request.ContentType?.StartsWith(Grpc, StringComparison.OrdinalIgnoreCase) == true;

    /// <summary>Writes the refusal, and counts it, unless there is no reason that is the client's.</summary>
    /// <param name="context">The request.</param>
    /// <param name="reason">What is counted; null for nothing.</param>
    /// <param name="status">The status of gRPC.</param>
    /// <param name="message">Why, for people.</param>
    /// <param name="retry">After this time the same may be asked again: google.rpc.RetryInfo, or Retry-After; null when it is refused for good.</param>
    public static Task WriteAsync(HttpContext context, RejectionReason? reason, StatusCode status, string message, TimeSpan? retry = null)
    {
        if (reason is { } counted)
        {
            context.RequestServices.GetRequiredService<ServiceMetrics>().Rejected(counted);
        }

        HttpResponse response = context.Response;
        if (IsGrpc(context.Request))
        {
            // gRPC over HTTP/2, "Trailers-Only": the status is in the headers.
            response.StatusCode = StatusCodes.Status200OK;
            response.ContentType = Grpc;
            response.Headers["grpc-status"] = ((int)status).ToString(CultureInfo.InvariantCulture);
            response.Headers["grpc-message"] = Uri.EscapeDataString(message);
            if (retry is { } pause)
            {
                Google.Rpc.Status details = new() { Code = (int)status, Message = message, Details = { Any.Pack(new Google.Rpc.RetryInfo { RetryDelay = Duration.FromTimeSpan(pause) }) } };
                response.Headers["grpc-status-details-bin"] = Convert.ToBase64String(details.ToByteArray());
            }

            return Task.CompletedTask;
        }

        // Codes: google/rpc/code.proto says which HTTP status stands for which.
        response.StatusCode = status switch
        {
            StatusCode.Unauthenticated => StatusCodes.Status401Unauthorized,
            StatusCode.PermissionDenied => StatusCodes.Status403Forbidden,
            StatusCode.Unavailable => StatusCodes.Status503ServiceUnavailable,
            _ => StatusCodes.Status429TooManyRequests,
        };
        if (retry is { } seconds)
        {
            response.Headers.RetryAfter = Math.Ceiling(seconds.TotalSeconds).ToString(CultureInfo.InvariantCulture);
        }

        response.ContentType = "text/plain; charset=utf-8";
        return response.WriteAsync(message + "\n", context.RequestAborted);
    }
}
