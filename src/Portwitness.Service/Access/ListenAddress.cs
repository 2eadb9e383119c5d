using System.Diagnostics.CodeAnalysis;
using System.Globalization;
using System.Net;

namespace Portwitness.Service.Access;

/// <summary>
/// Where the service listens: a TCP port, with or without TLS, or a Unix socket. What may be listened at depends on who is let in
/// (<see cref="Access.AccessSettings.ProblemWith"/>).
/// </summary>
public sealed record ListenAddress
{
    private const string UnixPrefix = "unix:";

    private ListenAddress()
    {
    }

    /// <summary>Address and port; null for a Unix socket. Port 0 lets the system choose.</summary>
    public IPEndPoint? Tcp { get; private init; }

    /// <summary>Path of the Unix socket; null for TCP.</summary>
    public string? SocketPath { get; private init; }

    /// <summary>Whether it is encrypted.</summary>
    public bool IsSecure { get; private init; }

    /// <summary>Whether this machine alone can reach it.</summary>
    public bool IsLocal => Tcp is null || IPAddress.IsLoopback(Tcp.Address);

    /// <summary>Reads "http://127.0.0.1:5000", "https://0.0.0.0:7443", "http://localhost:5000", "http://[::1]:5000" or "unix:/path".</summary>
    public static bool TryParse(
        string text, [NotNullWhen(true)] out ListenAddress? address, [NotNullWhen(false)] out string? problem)
    {
        address = null;
        if (text.StartsWith(UnixPrefix, StringComparison.Ordinal))
        {
            string path = text[UnixPrefix.Length..];
            problem = Path.IsPathFullyQualified(path) ? null : $"'{text}' needs an absolute path, for example unix:/run/portwitness.sock.";
            address = problem is null ? new() { SocketPath = path } : null;
            return problem is null;
        }

        if (!Uri.TryCreate(text, UriKind.Absolute, out Uri? uri) || (uri.Scheme != Uri.UriSchemeHttp && uri.Scheme != Uri.UriSchemeHttps)
            || uri.PathAndQuery != "/" || uri.UserInfo.Length > 0)
        {
            problem = $"'{text}' is no address; expected http://127.0.0.1:PORT, https://ADDRESS:PORT or unix:/path.";
            return false;
        }

        IPAddress? ip = uri.Host == "localhost" ? IPAddress.Loopback : null;
        if (ip is null && !IPAddress.TryParse(uri.Host, out ip))
        {
            problem = $"'{text}' names a host; expected a number such as 127.0.0.1, [::1], or 0.0.0.0 for all of this machine's.";
            return false;
        }

        problem = null;
        address = new() { Tcp = new IPEndPoint(ip, uri.Port), IsSecure = uri.Scheme == Uri.UriSchemeHttps };
        return true;
    }

    /// <inheritdoc/>
    public override string ToString() => SocketPath is null
        ? string.Create(CultureInfo.InvariantCulture, $"{(IsSecure ? "https" : "http")}://{Tcp}")
        : UnixPrefix + SocketPath;
}
