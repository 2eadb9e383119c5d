using System.CommandLine;
using Portwitness.Cli.Shell;
using Portwitness.Queue;
using Portwitness.Service.Working;

namespace Portwitness.Cli.Options;

/// <summary>How a service works on what is submitted.</summary>
internal sealed class WorkOptions
{
    public const string DrainName = "--drain";

    private static readonly WorkSettings Usual = new();

    private readonly Option<string> _queue = new("--queue")
    {
        Description = "where submissions wait: nats://host:port of a NATS server with JetStream, which several nodes share with one\n"
            + "PostgreSQL store. Without it PORTWITNESS_QUEUE names one, which may hold user and password, or they wait in this process",
        HelpName = "URL",
    };

    private readonly Option<int> _workers = NumberOption.Create("--workers", "submissions that are worked on at once; 0 only accepts them", Usual.AtOnce, 0, 256);
    private readonly Option<int> _tries = NumberOption.Create("--tries", "how often a submission is tried before it is set aside with its problem", Usual.Tries, 1, 100);
    private readonly Option<int> _drain = NumberOption.Create(
        DrainName, "how long calls and work that have begun may go on when the service is stopped", (int)Usual.Drain.TotalSeconds, 0, 3600, "SECONDS");

    private readonly Option<int> _notice = NumberOption.Create(
        "--notice", "how long a service that is being stopped tells health checks that it is not ready, before it\nstops listening; for a balancer that looks every few seconds",
        (int)Usual.Notice.TotalSeconds, 0, 600, "SECONDS");

    private readonly Option<TimeSpan?> _retain = AgeOption.Create(
        "--retain", "delete reports whose input came for the last time longer ago than this, 400d or 36h, with their submissions, as\n'history prune' does; without it nothing is deleted");

    public void AddTo(Command command)
    {
        foreach (Option option in new Option[] { _queue, _workers, _tries, _retain, _notice, _drain })
        {
            command.Add(option);
        }
    }

    public WorkSettings SettingsFrom(ParseResult parsed) => new()
    {
        AtOnce = parsed.GetValue(_workers), Tries = parsed.GetValue(_tries), Drain = TimeSpan.FromSeconds(parsed.GetValue(_drain)),
        Notice = TimeSpan.FromSeconds(parsed.GetValue(_notice)), Retain = parsed.GetValue(_retain),
    };

    /// <summary>Opens the queue.</summary>
    /// <exception cref="CommandFailure">Its address cannot be read.</exception>
    public IWorkQueue OpenQueue(ParseResult parsed)
    {
        string? place = parsed.GetValue(_queue) ?? Environment.GetEnvironmentVariable("PORTWITNESS_QUEUE");
        try
        {
            return WorkQueues.Open(place);
        }
        catch (QueueException exception)
        {
            throw new CommandFailure(exception.Message);
        }
    }
}
