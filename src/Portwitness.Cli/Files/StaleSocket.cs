using System.Net.Sockets;
using Portwitness.Cli.Shell;

namespace Portwitness.Cli.Files;

/// <summary>The socket file of a service: private, and out of the way when the service that made it is gone.</summary>
internal static class StaleSocket
{
    /// <summary>Removes a socket that nobody answers at; anything else in its place is left alone and is a failure.</summary>
    public static async Task RemoveAsync(string path, CancellationToken cancellation)
    {
        if (Directory.Exists(path))
        {
            throw new CommandFailure($"{path}: is a folder; --listen unix: names a socket file.");
        }

        if (!File.Exists(path))
        {
            return;
        }

        using Socket probe = new(AddressFamily.Unix, SocketType.Stream, ProtocolType.Unspecified);
        try
        {
            await probe.ConnectAsync(new UnixDomainSocketEndPoint(path), cancellation);
        }
        catch (SocketException exception) when (exception.SocketErrorCode == SocketError.ConnectionRefused && IsEmpty(path))
        {
            File.Delete(path);
            return;
        }
        catch (SocketException exception)
        {
            throw new CommandFailure($"{path}: is in the way ({exception.SocketErrorCode}); choose another path.");
        }

        throw new CommandFailure($"{path}: another service answers there already.");
    }

    /// <summary>Only this user may connect.</summary>
    public static void KeepPrivate(string path)
    {
        if (!OperatingSystem.IsWindows())
        {
            File.SetUnixFileMode(path, UnixFileMode.UserRead | UnixFileMode.UserWrite);
        }
    }

    // Connecting to a plain file is refused as well; a socket has no content, so that nothing is lost by mistake.
    private static bool IsEmpty(string path) => new FileInfo(path).Length == 0;
}
