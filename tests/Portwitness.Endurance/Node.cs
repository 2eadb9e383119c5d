using System.Globalization;
using System.Net;
using System.Net.Sockets;
using Grpc.Net.Client;
using Portwitness.Contracts.V1;

namespace Portwitness.Endurance;

/// <summary>A node: the service in a process of its own, at an address that it keeps when it is killed and started again.</summary>
internal sealed class Node : IDisposable
{
    private readonly string[] _options;
    private PortwitnessProgram _program;

    /// <summary>Starts one.</summary>
    /// <param name="options">Options of serve besides the address.</param>
    public Node(params string[] options)
    {
        using TcpListener listener = new(IPAddress.Loopback, 0);
        listener.Start();
        Address = string.Create(CultureInfo.InvariantCulture, $"http://127.0.0.1:{((IPEndPoint)listener.LocalEndpoint).Port}");
        listener.Stop();
        _options = ["serve", "--listen", Address, .. options];
        _program = PortwitnessProgram.Start(_options);
    }

    public string Address { get; }

    /// <summary>What it holds of the system now.</summary>
    public (long Memory, int Files) Held => _program.Held;

    /// <summary>Waits until it listens.</summary>
    public async Task<GrpcChannel> ConnectAsync()
    {
        GrpcChannel channel = GrpcChannel.ForAddress(Address, new GrpcChannelOptions { MaxReceiveMessageSize = null });
        for (int tries = 0; ; tries++)
        {
            try
            {
                await new Grpc.Health.V1.Health.HealthClient(channel).CheckAsync(new Grpc.Health.V1.HealthCheckRequest { Service = Witness.Descriptor.FullName });
                return channel;
            }
            catch (Grpc.Core.RpcException) when (tries < 600 && _program.IsRunning)
            {
                await Task.Delay(50);
            }
        }
    }

    /// <summary>SIGKILL, and a new process at the same address.</summary>
    public void KillAndStart()
    {
        _program.Kill();
        _program.Dispose();
        _program = PortwitnessProgram.Start(_options);
    }

    public void Dispose() => _program.Dispose();
}
