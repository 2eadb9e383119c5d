using System.Net;
using System.Net.Sockets;
using Microsoft.AspNetCore.Builder;
using Portwitness.Cli.Shell;
using Portwitness.Service.Access;
using Portwitness.Service.Hosting;
using Portwitness.Service.Validation;

namespace Portwitness.Cli.Tests;

public sealed class ServerTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task NoServer_ExitsWith3AndSaysWhatToDo()
    {
        string address = $"unix:{_folder.PathOf("nobody")}";

        CliRun run = await CliRun.Async("decode", "--words", "0x0801912C", "--server", address);

        run.Should().Be(new CliRun(
            ExitCode.NoService, "",
            $"portwitness: no service answers at {address}. Start one with 'portwitness serve', or leave --server out.\n"));
    }

    [Fact]
    public async Task ServerOnAUnixSocket_GivesTheSameReport()
    {
        string address = $"unix:{_folder.PathOf("socket")}";
        await using WebApplication app = await StartAsync(address);

        CliRun run = await CliRun.Async("decode", "--words", "0x0801912C", "--server", address);

        run.Should().Be(await CliRun.Async("decode", "--words", "0x0801912C"));
    }

    [Fact]
    public async Task NegotiateOverAServer_GivesTheSameReport()
    {
        string address = $"unix:{_folder.PathOf("socket")}";
        await using WebApplication app = await StartAsync(address);
        string[][] runs =
        [
            ["negotiate", "--words", "0x0801912C 0x0002D12C", "--sink", "all"],
            ["negotiate", "--label", "USB-C: 5V⎓3A 9V⎓3A (27W Max)", "--sink", "laptop-45w", "--format", "json"],
            ["negotiate", "--list"],
        ];

        foreach (string[] arguments in runs)
        {
            CliRun run = await CliRun.Async([.. arguments, "--server", address]);

            run.Error.Should().BeEmpty();
            run.Output.Should().NotBeEmpty().And.Be((await CliRun.Async(arguments)).Output);
        }
    }

    [Fact]
    public async Task FirstConnectionLost_SecondTrySucceeds()
    {
        await using WebApplication app = await StartAsync("http://127.0.0.1:0");
        using TcpListener door = new(IPAddress.Loopback, 0);
        door.Start();
        Task<int> carried = LoseOneThenCarryAsync(door, new Uri(app.Urls.Single()).Port);

        CliRun run = await CliRun.Async(
            "decode", "--words", "0x0801912C", "--server", $"http://127.0.0.1:{((IPEndPoint)door.LocalEndpoint).Port}");

        run.ExitCode.Should().Be(ExitCode.Clean);
        door.Stop();
        (await carried).Should().BeGreaterThan(0);
    }

    [Fact]
    public async Task SomethingElseAnswers_ExitsWith3()
    {
        using TcpListener stranger = new(IPAddress.Loopback, 0);
        stranger.Start();
        Task answering = Task.Run(async () =>
        {
            while (true)
            {
                using TcpClient client = await stranger.AcceptTcpClientAsync();
                await client.GetStream().WriteAsync("HTTP/1.1 400 Bad Request\r\nContent-Length: 0\r\n\r\n"u8.ToArray());
            }
        });

        CliRun run = await CliRun.Async(
            "rules", "--server", $"http://127.0.0.1:{((IPEndPoint)stranger.LocalEndpoint).Port}");

        run.ExitCode.Should().Be(ExitCode.NoService);
        run.Error.Should().StartWith("portwitness: ").And.NotContain("   at ");
        stranger.Stop();
        await ((Func<Task>)(() => answering)).Should().ThrowAsync<SocketException>();
    }

    private static async Task<WebApplication> StartAsync(string text)
    {
        ListenAddress.TryParse(text, out ListenAddress? address, out _).Should().BeTrue();
        WebApplication app = ServiceHost.Build([address!], new ServiceLimits(), _ => { });
        await app.StartAsync();
        return app;
    }

    private static async Task<int> LoseOneThenCarryAsync(TcpListener door, int port)
    {
        (await door.AcceptTcpClientAsync()).Dispose();
        int carried = 0;
        try
        {
            while (true)
            {
                TcpClient inside = await door.AcceptTcpClientAsync();
                TcpClient outside = new("127.0.0.1", port);
                _ = inside.GetStream().CopyToAsync(outside.GetStream());
                _ = outside.GetStream().CopyToAsync(inside.GetStream());
                carried++;
            }
        }
        catch (SocketException)
        {
            return carried;
        }
    }
}
