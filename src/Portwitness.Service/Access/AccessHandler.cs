using System.Security.Claims;
using System.Text;
using System.Text.Encodings.Web;
using Grpc.Core;
using Microsoft.AspNetCore.Authentication;
using Microsoft.Extensions.Logging;
using Microsoft.Extensions.Options;
using Microsoft.Extensions.Primitives;
using Portwitness.History;
using Portwitness.Service.Telemetry;

namespace Portwitness.Service.Access;

/// <summary>Tells who a client is: by its token, by its certificate, or, where the service is open, by being on this machine.</summary>
internal sealed class AccessHandler(
    IOptionsMonitor<AuthenticationSchemeOptions> options, ILoggerFactory logger, UrlEncoder encoder, AccessSettings settings, KnownTokens? tokens = null)
    : AuthenticationHandler<AuthenticationSchemeOptions>(options, logger, encoder)
{
    /// <summary>The name of the scheme.</summary>
    public const string SchemeName = "Door";

    private const string Bearer = "Bearer ";
    private const string Basic = "Basic ";
    private const int LongestBasic = 512;

    /// <inheritdoc/>
    protected override async Task<AuthenticateResult> HandleAuthenticateAsync()
    {
        if (settings.RequireTokens)
        {
            if (TokenIn(Request.Headers.Authorization.ToString()) is not { } given)
            {
                return AuthenticateResult.NoResult();
            }

            string from = Context.Connection.RemoteIpAddress?.ToString() ?? "local";
            try
            {
                return await tokens!.FindAsync(given, from, Context.RequestAborted) is { } token
                    ? Let($"token {token.Id}", token.Role.ToString())
                    : AuthenticateResult.Fail("the token is not valid.");
            }
            catch (StoreException exception)
            {
                return AuthenticateResult.Fail(exception);
            }
        }

        if (settings.ClientAuthorities is not null)
        {
            return Context.Connection.ClientCertificate is { } certificate
                ? Let($"certificate {certificate.Thumbprint}", AccessRoles.Submit)
                : AuthenticateResult.NoResult();
        }

        return Let(Clients.ThisMachine, AccessRoles.Admin);
    }

    /// <inheritdoc/>
    protected override async Task HandleChallengeAsync(AuthenticationProperties properties)
    {
        Exception? problem = (await HandleAuthenticateOnceSafeAsync()).Failure;
        if (problem is StoreException)
        {
            // It may be a good token: whoever has it asks again instead of giving up.
            await Refusal.WriteAsync(Context, null, StatusCode.Unavailable, "tokens cannot be looked up now; try again later.");
            return;
        }

        // Browsers ask people for what Basic needs.
        Response.Headers.WWWAuthenticate = new StringValues([$"{Bearer}realm=\"portwitness\"", $"{Basic}realm=\"portwitness\", charset=\"UTF-8\""]);
        await Refusal.WriteAsync(
            Context, RejectionReason.Token, StatusCode.Unauthenticated,
            problem?.Message ?? "a token is needed: authorization: Bearer TOKEN, made by 'portwitness tokens create'.");
    }

    /// <inheritdoc/>
    protected override Task HandleForbiddenAsync(AuthenticationProperties properties) =>
        Refusal.WriteAsync(Context, RejectionReason.Token, StatusCode.PermissionDenied, "the role of the token does not allow this call.");

    // RFC 6750, 2.1; RFC 7617, 2: the token is the password, whatever the user is called.
    private static string? TokenIn(string header)
    {
        if (header.StartsWith(Bearer, StringComparison.OrdinalIgnoreCase))
        {
            return header[Bearer.Length..].Trim();
        }

        byte[] text = new byte[LongestBasic];
        return header.StartsWith(Basic, StringComparison.OrdinalIgnoreCase) && Convert.TryFromBase64String(header[Basic.Length..].Trim(), text, out int length)
            && Encoding.UTF8.GetString(text, 0, length) is var pair && pair.IndexOf(':', StringComparison.Ordinal) is >= 0 and var colon ? pair[(colon + 1)..] : null;
    }

    private static AuthenticateResult Let(string name, string role)
    {
        ClaimsIdentity identity = new([new Claim(ClaimTypes.Name, name), new Claim(ClaimTypes.Role, role)], SchemeName);
        return AuthenticateResult.Success(new AuthenticationTicket(new ClaimsPrincipal(identity), SchemeName));
    }
}
