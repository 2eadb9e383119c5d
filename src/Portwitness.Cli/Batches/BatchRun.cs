using System.CommandLine;
using Portwitness.Cli.Connection;
using Portwitness.Cli.Options;
using Portwitness.Cli.Photos;
using Portwitness.Cli.Shell;
using Portwitness.Contracts.V1;
using Portwitness.Reports.Formats;
using Portwitness.Reports.Json;
using Portwitness.Reports.Sampling;
using Portwitness.Reports.Text;

namespace Portwitness.Cli.Batches;

/// <summary>Checks products side by side and reports them in order.</summary>
/// <param name="terminal">Where to write.</param>
/// <param name="common">The options of the command line.</param>
/// <param name="parsed">Their values.</param>
/// <param name="service">The service.</param>
/// <param name="known">How products came out before, which are not checked again as long as their files are the same.</param>
/// <param name="journal">Takes what is done; null without a folder of reports.</param>
internal sealed class BatchRun(
    Terminal terminal, CommonOptions common, ParseResult parsed, ServiceConnection service,
    IReadOnlyDictionary<string, BatchEntry> known, BatchJournal? journal)
{
    /// <summary>So many products are synced at once at most.</summary>
    private const int MaxUnsynced = 256;

    private static readonly TimeSpan TimeToEnd = TimeSpan.FromSeconds(2);

    private readonly IReadOnlyList<ReportFormat> _formats = BatchFormats.OfEach(common.FormatsFrom(parsed), parsed.GetValue(common.Output) is not null);
    private readonly bool _lines = common.IsJson(parsed) && parsed.GetValue(common.Output) is null;
    private readonly bool _quiet = parsed.GetValue(common.Quiet);
    private readonly string? _directory = parsed.GetValue(common.Output);
    private readonly BatchSummary _summary = new();
    private readonly List<BatchEntry> _unsynced = [];

    /// <summary>Languages of photos.</summary>
    public string PhotoLanguages { get; init; } = PhotoReading.UsualLanguages;

    /// <summary>The lot that products are drawn from; null where nobody asked.</summary>
    public LotJudgement? Lot { get; init; }

    /// <summary>Checks products, or captures against one label.</summary>
    /// <param name="products">Product folders and files, or captures.</param>
    /// <param name="label">The label of captures; null for products, which have their own.</param>
    /// <param name="atOnce">So many at a time.</param>
    /// <param name="cancellation">Stops it.</param>
    public async Task<int> RunAsync(IReadOnlyList<BatchProduct> products, string? label, int atOnce, CancellationToken cancellation)
    {
        IReadOnlyList<string> names = ReportNames.Of(products, _formats[0].Ending, journal?.Done ?? []);
        BatchFiles files = new(_directory, common.FormatsFrom(parsed), _formats, service.Client) { Spreads = new BatchSpreads { Lot = Lot } };
        BatchCheck check = new(terminal, common, parsed, service, known)
        {
            Label = label, PhotoLanguages = PhotoLanguages, Plots = _formats.Any(static format => format.DrawsPlots), Files = _directory is null ? null : new ReportFiles(_directory, _formats),
        };
        using CancellationTokenSource stop = CancellationTokenSource.CreateLinkedTokenSource(cancellation);
        BatchProgress progress = new(terminal, products.Count, _quiet, TimeProvider.System);

        // Never more than these are under way or waiting to be written, however many products there are.
        Queue<Task<BatchOutcome>> window = new();
        try
        {
            int started = 0;
            for (int written = 0; written < products.Count; written++)
            {
                for (; started < products.Count && window.Count < atOnce; started++)
                {
                    (BatchProduct product, string name) = (products[started], names[started]);
                    window.Enqueue(Task.Run(() => check.RunAsync(product, name, stop.Token), stop.Token));
                }

                // What is done is synced before something is waited for, so that many that come at once are synced once.
                if (!window.Peek().IsCompleted)
                {
                    Sync();
                    terminal.Output.Flush();
                }

                BatchOutcome outcome = await window.Dequeue().WaitAsync(cancellation);
                Write(outcome);
                _summary.Add(outcome);
                files.Add(outcome);
                Tell(outcome, progress, $"[{written + 1}/{products.Count}]");
            }
        }
        finally
        {
            progress.End();
            await stop.CancelAsync();
            await Task.WhenAny(Task.WhenAll(window), Task.Delay(TimeToEnd, CancellationToken.None));
            Sync();
        }

        IReadOnlyList<string> problems = await files.WriteAsync(cancellation);
        foreach (string problem in problems)
        {
            terminal.Say(problem);
        }

        if (!_quiet)
        {
            _summary.Write(_lines ? terminal.Error : terminal.Output);
            files.Spreads.Write(_lines ? terminal.Error : terminal.Output);
        }

        return problems.Count > 0 ? ExitCode.Unusable : _summary.ExitCode;
    }

    private void Write(BatchOutcome outcome)
    {
        if (journal is not null)
        {
            _unsynced.Add(outcome.Entry);
            if (_unsynced.Count >= MaxUnsynced)
            {
                Sync();
            }
        }
        else if (_lines && !_quiet && outcome.Report is { } report)
        {
            JsonReport.Write(terminal.Output, report, indented: false);
            terminal.StopWhenGone();
        }
    }

    private void Sync()
    {
        journal?.Add(_unsynced);
        _unsynced.Clear();
    }

    private void Tell(BatchOutcome outcome, BatchProgress progress, string count)
    {
        BatchEntry entry = outcome.Entry;
        bool fails = entry.Problem is not null || entry.Verdict == Verdict.Fails;
        progress.Add(fails, outcome.Skipped);
        if (entry.Problem is { } problem)
        {
            progress.Say($"{count} {outcome.Product}: {(outcome.IsUnwritten ? "NO REPORT" : "CANNOT BE READ")}: {problem}");
        }
        else if (!_quiet && (fails || !progress.IsWatched))
        {
            string found = outcome.Report is { } report ? ProductText.FindingSummary(report) : "as before; its files are the same";
            progress.Say($"{count} {outcome.Product}: {ProductText.Word(entry.Verdict)}; findings: {found}");
        }
    }
}
