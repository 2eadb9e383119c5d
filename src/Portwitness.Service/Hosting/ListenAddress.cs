using System.Diagnostics.CodeAnalysis;
using System.Globalization;
using System.Net;

namespace Portwitness.Service.Hosting;

/// <summary>
/// Where the service listens: a TCP port of this machine's loopback, or a Unix socket. There is no authentication, so
/// nothing that other machines can reach is accepted.
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

    /// <summary>Reads "http://127.0.0.1:5000", "http://localhost:5000", "http://[::1]:5000" or "unix:/path".</summary>
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

        if (!Uri.TryCreate(text, UriKind.Absolute, out Uri? uri) || uri.Scheme != Uri.UriSchemeHttp
            || uri.PathAndQuery != "/" || uri.UserInfo.Length > 0)
        {
            problem = $"'{text}' is no address; expected http://127.0.0.1:PORT or unix:/path.";
            return false;
        }

        IPAddress? ip = uri.Host == "localhost" ? IPAddress.Loopback : null;
        if ((ip is null && !IPAddress.TryParse(uri.Host, out ip)) || !IPAddress.IsLoopback(ip))
        {
            problem = $"'{text}' can be reached from other machines, and the service has no authentication; "
                + "use http://127.0.0.1:PORT or unix:/path, and a tunnel to reach it from elsewhere.";
            return false;
        }

        problem = null;
        address = new() { Tcp = new IPEndPoint(ip, uri.Port) };
        return true;
    }

    /// <inheritdoc/>
    public override string ToString() => SocketPath is null
        ? string.Create(CultureInfo.InvariantCulture, $"http://{Tcp}")
        : UnixPrefix + SocketPath;
}
