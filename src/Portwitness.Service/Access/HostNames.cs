using System.Net;
using Microsoft.AspNetCore.Http;

namespace Portwitness.Service.Access;

/// <summary>
/// By which names a service without authentication may be called. A page of the web can let its own name lead to this machine (DNS rebinding),
/// and would then read what is answered; with a number it cannot. No browser speaks HTTP/2 without a certificate, so that calls of gRPC pass.
/// </summary>
internal static class HostNames
{
    private const string Problem =
        "Without --require-tokens or --client-authorities this service answers to localhost and numbers such as 127.0.0.1 only, not to other names.\n";

    /// <summary>Refuses other names (RFC 9110, 15.5.20).</summary>
    public static Task CheckAsync(HttpContext context, RequestDelegate next)
    {
        if (HttpProtocol.IsHttp2(context.Request.Protocol) || context.Connection.RemoteIpAddress is null || IsOfThisMachine(context.Request.Host.Host))
        {
            return next(context);
        }

        context.Response.StatusCode = StatusCodes.Status421MisdirectedRequest;
        context.Response.ContentType = "text/plain; charset=utf-8";
        return context.Response.WriteAsync(Problem, context.RequestAborted);
    }

    private static bool IsOfThisMachine(string host) =>
        host.Equals("localhost", StringComparison.OrdinalIgnoreCase) || (IPAddress.TryParse(host.Trim('[', ']'), out IPAddress? address) && IPAddress.IsLoopback(address));
}
