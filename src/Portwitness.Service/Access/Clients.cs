using Grpc.Core;
using Microsoft.AspNetCore.Http;

namespace Portwitness.Service.Access;

/// <summary>Names clients: by token or certificate, or by where they come from.</summary>
internal static class Clients
{
    /// <summary>Everybody who uses an open service on this machine.</summary>
    public const string ThisMachine = "this machine";

    /// <summary>The client of a call; those of the same process are one.</summary>
    public static string NameOf(ServerCallContext call) => call is InProcessContext ? ThisMachine : NameOf(call.GetHttpContext());

    /// <summary>The client of a request.</summary>
    public static string NameOf(HttpContext context) => context.User.Identity is { IsAuthenticated: true, Name: { } name } && name != ThisMachine
        ? name : context.Connection.RemoteIpAddress?.ToString() ?? "local";
}
