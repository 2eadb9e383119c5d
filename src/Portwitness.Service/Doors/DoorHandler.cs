using System.Security.Claims;
using System.Text.Encodings.Web;
using Grpc.Core;
using Microsoft.AspNetCore.Authentication;
using Microsoft.Extensions.Logging;
using Microsoft.Extensions.Options;
using Portwitness.History;

namespace Portwitness.Service.Doors;

/// <summary>Tells who a client is: by its token, by its certificate, or, where the service is open, by being on this machine.</summary>
internal sealed class DoorHandler(
    IOptionsMonitor<AuthenticationSchemeOptions> options, ILoggerFactory logger, UrlEncoder encoder, DoorSettings settings, KnownTokens? tokens = null)
    : AuthenticationHandler<AuthenticationSchemeOptions>(options, logger, encoder)
{
    /// <summary>The name of the scheme.</summary>
    public const string SchemeName = "Door";

    private const string Bearer = "Bearer ";

    /// <inheritdoc/>
    protected override async Task<AuthenticateResult> HandleAuthenticateAsync()
    {
        string given = Request.Headers.Authorization.ToString();
        if (settings.RequireTokens)
        {
            if (!given.StartsWith(Bearer, StringComparison.OrdinalIgnoreCase))
            {
                return AuthenticateResult.NoResult();
            }

            string from = Context.Connection.RemoteIpAddress?.ToString() ?? "local";
            try
            {
                return await tokens!.FindAsync(given[Bearer.Length..].Trim(), from, Context.RequestAborted) is { } token
                    ? Let($"token {token.Id}", token.Role.ToString())
                    : AuthenticateResult.Fail("the token is not valid.");
            }
            catch (StoreException)
            {
                return AuthenticateResult.Fail("tokens cannot be looked up now; try again later.");
            }
        }

        if (settings.ClientAuthorities is not null)
        {
            return Context.Connection.ClientCertificate is { } certificate
                ? Let($"certificate {certificate.Thumbprint}", DoorRoles.Submit)
                : AuthenticateResult.NoResult();
        }

        return Let(Clients.ThisMachine, DoorRoles.Admin);
    }

    /// <inheritdoc/>
    protected override async Task HandleChallengeAsync(AuthenticationProperties properties)
    {
        string? problem = (await HandleAuthenticateOnceSafeAsync()).Failure?.Message;
        Response.Headers.WWWAuthenticate = "Bearer";
        await Refusal.WriteAsync(
            Context, StatusCode.Unauthenticated,
            problem is null ? "a token is needed: authorization: Bearer TOKEN, made by 'portwitness tokens create'." : problem);
    }

    /// <inheritdoc/>
    protected override Task HandleForbiddenAsync(AuthenticationProperties properties) =>
        Refusal.WriteAsync(Context, StatusCode.PermissionDenied, "the role of the token does not allow this call.");

    private static AuthenticateResult Let(string name, string role)
    {
        ClaimsIdentity identity = new([new Claim(ClaimTypes.Name, name), new Claim(ClaimTypes.Role, role)], SchemeName);
        return AuthenticateResult.Success(new AuthenticationTicket(new ClaimsPrincipal(identity), SchemeName));
    }
}
