using System.CommandLine;
using Grpc.Core;
using Portwitness.Cli.Calls;
using Portwitness.Cli.Connection;
using Portwitness.Cli.Files;
using Portwitness.Contracts.V1;
using Portwitness.Reports;
using Portwitness.Reports.Json;
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
    private readonly IReadOnlyList<ReportFormat> _formats = BatchFormats.OfEach(common.FormatsFrom(parsed), parsed.GetValue(common.Output) is not null);
    private readonly bool _lines = common.IsJson(parsed) && parsed.GetValue(common.Output) is null;
    private readonly bool _quiet = parsed.GetValue(common.Quiet);
    private readonly string? _directory = parsed.GetValue(common.Output);
    private readonly string _settings = common.SettingsFrom(parsed);
    private readonly BatchSummary _summary = new();

    /// <summary>Checks products, or captures against one label.</summary>
    /// <param name="products">Product folders and files, or captures.</param>
    /// <param name="label">The label of captures; null for products, which have their own.</param>
    /// <param name="atOnce">So many at a time.</param>
    /// <param name="cancellation">Stops it.</param>
    public async Task<int> RunAsync(IReadOnlyList<string> products, string? label, int atOnce, CancellationToken cancellation)
    {
        IReadOnlyList<string> names = BatchProducts.ReportNames(products, _formats[0].Ending, journal?.Done ?? []);
        BatchFiles files = new(_directory, common.FormatsFrom(parsed), _formats, service.Client);
        using CancellationTokenSource stop = CancellationTokenSource.CreateLinkedTokenSource(cancellation);
        BatchProgress progress = new(terminal, products.Count, _quiet, TimeProvider.System);

        // Never more than these are under way or waiting to be written, however many products there are.
        Queue<Task<Outcome>> window = new();
        try
        {
            int started = 0;
            for (int written = 0; written < products.Count; written++)
            {
                for (; started < products.Count && window.Count < atOnce; started++)
                {
                    string product = products[started];
                    string report = names[started];
                    window.Enqueue(Task.Run(() => CheckAsync(product, label, report, stop.Token), stop.Token));
                }

                Outcome outcome = await window.Dequeue();
                Write(outcome);
                _summary.Add(outcome.Entry, outcome.Skipped);
                files.Add(outcome.Product, outcome.Entry);
                Tell(outcome, progress, $"[{written + 1}/{products.Count}]");
            }
        }
        finally
        {
            progress.End();
            await stop.CancelAsync();
            await Task.WhenAll(window).ContinueWith(
                static _ => { }, CancellationToken.None, TaskContinuationOptions.None, TaskScheduler.Default);
        }

        foreach (string unlisted in await files.WriteAsync(cancellation))
        {
            terminal.Say(unlisted);
        }

        if (!_quiet)
        {
            _summary.Write(_lines ? terminal.Error : terminal.Output);
            files.Spreads.Write(_lines ? terminal.Error : terminal.Output);
        }

        return _summary.ExitCode;
    }

    private async Task<Outcome> CheckAsync(string product, string? label, string report, CancellationToken cancellation)
    {
        InputDigests? digests = null;
        try
        {
            CheckSubject subject = label is null ? await CheckSubject.FromProductAsync(product, cancellation) : CheckSubject.FromCaptureFile(product, label);
            if (known.TryGetValue(Path.GetFullPath(product), out BatchEntry? earlier) && earlier.Settings == _settings
                && await InputDigests.AreSameAsync(earlier, subject, cancellation))
            {
                return new Outcome(product, earlier, null);
            }

            digests = new InputDigests(subject);
            subject.Options.Edition = common.EditionFrom(parsed);
            subject.Options.Rules = common.RulesFrom(parsed);
            subject.Options.Plots = _formats.Any(static format => format.DrawsPlots);
            ProductReport found = await ResilientCalls.RunAsync(
                service.Again, token => CheckDialogue.RunAsync(service.Client, subject.Options, digests.Around(subject.Open), Progress.None, token), cancellation);
            bool isKept = StoredReports.SayWhatWasNotKept(found, terminal);
            return Came(found, !isKept ? "its report could not be kept" : found.Unusable
                ? string.Join("; ", found.Faults.Select(FaultText.Of).DefaultIfEmpty("nothing could be judged"))
                : null);
        }
        catch (CommandFailure failure) when (failure.ExitCode == ExitCode.Unusable)
        {
            return Unreadable(failure.Message);
        }
        catch (RpcException exception) when (exception.StatusCode != StatusCode.Cancelled
            && ServiceFault.ExitCodeOf(exception) == ExitCode.Unusable)
        {
            return Unreadable(ServiceFault.Describe(exception));
        }
        catch (Exception exception) when (exception is IOException or UnauthorizedAccessException)
        {
            return Unreadable(exception.Message);
        }

        Outcome Came(ProductReport found, string? problem) => new(
            product,
            new BatchEntry
            {
                Product = Path.GetFullPath(product),
                Report = report,
                Settings = _settings,
                Inputs = digests?.Digests ?? new Dictionary<string, string>(),
                Verdict = found.Verdict,
                Name = found.Product,
                Sample = found.Sample,
                Firmware = found.Firmware,
                Problem = problem,
                ExitCode = problem is null ? common.ExitCodeFor(parsed, found.Findings) : ExitCode.Unusable,
                Findings = found.Findings.CountBy(finding => finding.Rule).ToDictionary(),
            },
            found);

        // Line by line, the output keeps to the order of the products.
        Outcome Unreadable(string problem) => Came(
            new ProductReport
            {
                Product = product,
                Verdict = Verdict.CannotTell,
                Unusable = true,
                Faults = { new Fault { File = product, Code = "product-unreadable", Detail = problem } },
            },
            problem);
    }

    private void Write(Outcome outcome)
    {
        if (outcome.Report is not { } report)
        {
            journal?.Add(outcome.Entry);
            return;
        }

        if (_directory is not null)
        {
            ReportedProduct reported = CheckSubject.Reported(outcome.Product, report.Verdict, outcome.Entry.ExitCode, () => report);
            foreach (ReportFormat format in _formats)
            {
                using AtomicFile file = AtomicFile.Create(Path.Combine(_directory, BatchFormats.Beside(outcome.Entry.Report, _formats[0], format)));
                format.Write(file.Writer, new ReportSet([reported]) { Indented = true });
                file.Commit();
            }

            journal?.Add(outcome.Entry);
        }
        else if (_lines && !_quiet)
        {
            JsonReport.Write(terminal.Output, report, indented: false);
        }
    }

    private void Tell(Outcome outcome, BatchProgress progress, string count)
    {
        BatchEntry entry = outcome.Entry;
        bool fails = entry.Problem is not null || entry.Verdict == Verdict.Fails;
        progress.Add(fails, outcome.Skipped);
        if (entry.Problem is { } problem)
        {
            progress.Say($"{count} {outcome.Product}: CANNOT BE READ: {problem}");
        }
        else if (!_quiet && (fails || !progress.IsWatched))
        {
            string found = outcome.Report is { } report ? ProductText.FindingSummary(report) : "as before; its files are the same";
            progress.Say($"{count} {outcome.Product}: {ProductText.Word(entry.Verdict)}; findings: {found}");
        }
    }

    // Without a report it is as it was before.
    private sealed record Outcome(string Product, BatchEntry Entry, ProductReport? Report)
    {
        public bool Skipped => Report is null;
    }
}
