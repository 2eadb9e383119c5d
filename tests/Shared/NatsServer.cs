using System.Diagnostics;
using System.Globalization;
using System.Net;
using System.Net.Sockets;

namespace Portwitness.Tests;

/// <summary>A NATS server with JetStream on loopback, of Debian's package; it can be killed and started again on the same disk.</summary>
internal sealed class NatsServer : IDisposable
{
    public const string Package = "nats-server";
    public const string Program = "/usr/sbin/nats-server";

    private readonly string _folder = Directory.CreateTempSubdirectory("portwitness-nats-").FullName;
    private readonly int _port = FreePort();
    private readonly string[] _more;
    private Process? _process;

    public NatsServer(params string[] more)
    {
        _more = more;
        Start();
    }

    public string Address => $"nats://127.0.0.1:{_port.ToString(CultureInfo.InvariantCulture)}";

    public void Start()
    {
        ProcessStartInfo start = new(Program, ["-js", "-sd", _folder, "-a", "127.0.0.1", "-p", _port.ToString(CultureInfo.InvariantCulture), .. _more])
        {
            RedirectStandardError = true,
        };
        _process = Process.Start(start)!;

        // It says a lot, and would wait for a reader.
        _process.ErrorDataReceived += static (_, _) => { };
        _process.BeginErrorReadLine();
        for (int tries = 0; ; tries++)
        {
            using Socket socket = new(AddressFamily.InterNetwork, SocketType.Stream, ProtocolType.Tcp);
            try
            {
                socket.Connect(IPAddress.Loopback, _port);
                return;
            }
            catch (SocketException) when (tries < 600)
            {
                Thread.Sleep(50);
            }
        }
    }

    /// <summary>By SIGKILL.</summary>
    public void Kill()
    {
        _process!.Kill();
        _process.WaitForExit();
    }

    /// <summary>Takes away what it had on disk.</summary>
    public void LoseDisk()
    {
        Directory.Delete(_folder, recursive: true);
        Directory.CreateDirectory(_folder);
    }

    public void Dispose()
    {
        Kill();
        _process!.Dispose();
        Directory.Delete(_folder, recursive: true);
    }

    private static int FreePort()
    {
        using TcpListener listener = new(IPAddress.Loopback, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }
}
