using Microsoft.AspNetCore.Builder;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;
using Portwitness.Cli.Files;
using Portwitness.Cli.Shell;
using Portwitness.History;
using Portwitness.Service.Access;
using Portwitness.Service.Hosting;
using Portwitness.Service.Telemetry;
using Portwitness.Service.Validation;
using Portwitness.Service.Working;

namespace Portwitness.Cli.Commands;

/// <summary>The service from its start until it is stopped.</summary>
internal sealed class ServeRun
{
    public required ListenAddress[] Addresses { get; init; }

    public required IReportStore? Store { get; init; }

    public required AccessSettings Access { get; init; }

    public required ServiceLimits Limits { get; init; }

    public required TelemetrySettings Telemetry { get; init; }

    public required ServiceWork Work { get; init; }

    public required bool Verbose { get; init; }

    /// <summary>What is served beside gRPC; null for nothing.</summary>
    public ServiceExtension? Extension { get; init; }

    public async Task<int> UntilStoppedAsync(Terminal terminal, CancellationToken cancellation)
    {
        string[] sockets = [.. Addresses.Select(address => address.SocketPath).OfType<string>()];
        foreach (string socket in sockets)
        {
            await StaleSocket.RemoveAsync(socket, cancellation);
        }

        await using WebApplication app = Build();
        try
        {
            await app.StartAsync(cancellation);
        }
        catch (IOException exception)
        {
            throw new CommandFailure($"cannot listen: {exception.Message}");
        }

        foreach (string socket in sockets)
        {
            StaleSocket.KeepPrivate(socket);
        }

        foreach (string url in app.Urls)
        {
            await terminal.Output.WriteLineAsync($"Listening on {url.Replace("http://unix:", "unix:", StringComparison.Ordinal)}");
        }

        await terminal.Output.FlushAsync(cancellation);
        terminal.Say(Store is null ? "reports are not kept." : $"reports are kept in {Store.Place}.");
        if (Store is not null)
        {
            terminal.Say($"submissions wait in {Work.Queue.Place}; {Work.Settings.AtOnce} are worked on at once.");
        }

        terminal.Say(Access switch
        {
            { RequireTokens: true, ClientAuthorities: not null } => "clients need a certificate and a token.",
            { RequireTokens: true } => "clients need a token, which 'portwitness tokens create' makes.",
            { ClientAuthorities: not null } => "clients need a certificate.",
            _ => "there is no authentication: whoever can reach this address on this machine can use the service.",
        });
        try
        {
            await Task.Delay(Timeout.Infinite, cancellation);
        }
        catch (OperationCanceledException)
        {
            // Ctrl-C or SIGTERM: calls that have begun may end.
        }

        if (Work.Settings.Notice > TimeSpan.Zero)
        {
            app.Services.GetRequiredService<Readiness>().Leave();
            terminal.Say($"not ready any more; stopping in {Work.Settings.Notice.TotalSeconds:0} s.");
            await Task.Delay(Work.Settings.Notice, CancellationToken.None);
        }

        terminal.Say("stopping: what has begun may end.");
        using CancellationTokenSource patience = new(Work.Settings.Drain);
        await app.StopAsync(patience.Token);
        // What it logged is written by then.
        await app.DisposeAsync();
        terminal.Say("stopped.");
        return ExitCode.Clean;
    }

    private WebApplication Build()
    {
        try
        {
            return ServiceHost.Build(Addresses, Limits, logging => logging
                .SetMinimumLevel(Verbose ? LogLevel.Debug : LogLevel.Warning)
                .AddFilter(typeof(CountLog).FullName, LogLevel.Information)
                .AddSimpleConsole(console => console.SingleLine = true)
                .AddConsole(console => console.LogToStandardErrorThreshold = LogLevel.Trace), Store, Access, Telemetry, Work, Extension);
        }
        catch (AccessException exception)
        {
            throw new CommandFailure(exception.Message);
        }
    }
}
