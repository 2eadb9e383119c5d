using System.Diagnostics.CodeAnalysis;

namespace Portwitness.Cli.Connection;

/// <summary>The service that --server names.</summary>
/// <param name="Text">As given.</param>
/// <param name="Uri">What to connect to.</param>
/// <param name="SocketPath">The Unix socket; null for TCP.</param>
internal sealed record ServerAddress(string Text, Uri Uri, string? SocketPath)
{
    private const string UnixPrefix = "unix:";

    public static bool TryParse(string text, [NotNullWhen(true)] out ServerAddress? address)
    {
        address = null;
        if (text.StartsWith(UnixPrefix, StringComparison.Ordinal) && text.Length > UnixPrefix.Length)
        {
            address = new(text, new Uri("http://localhost"), Path.GetFullPath(text[UnixPrefix.Length..]));
        }
        else if (Uri.TryCreate(text, UriKind.Absolute, out Uri? uri) && (uri.Scheme == Uri.UriSchemeHttp || uri.Scheme == Uri.UriSchemeHttps)
            && uri.PathAndQuery == "/" && uri.UserInfo.Length == 0)
        {
            address = new(text, uri, null);
        }

        return address is not null;
    }
}
