using Google.Protobuf;
using Grpc.Core;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.DependencyInjection;
using Portwitness.Service.Telemetry;

namespace Portwitness.Server.Json;

/// <summary>What is answered instead of what was asked for: google.rpc.Status as JSON, as the calls themselves answer.</summary>
internal static class JsonRefusal
{
    private static readonly JsonFormatter Json = new(JsonFormatter.Settings.Default.WithFormatDefaultValues(true));

    /// <summary>Writes it, and counts it.</summary>
    /// <param name="context">The request.</param>
    /// <param name="status">The status of HTTP.</param>
    /// <param name="message">What is wrong, where, and what to do.</param>
    public static Task WriteAsync(HttpContext context, int status, string message)
    {
        context.RequestServices.GetRequiredService<ServiceMetrics>().Rejected(
            status == StatusCodes.Status413PayloadTooLarge ? RejectionReason.Size : RejectionReason.Invalid);
        context.Response.StatusCode = status;
        context.Response.ContentType = "application/json; charset=utf-8";
        return context.Response.WriteAsync(Json.Format(new Google.Rpc.Status { Code = (int)StatusCode.InvalidArgument, Message = message }), context.RequestAborted);
    }
}
