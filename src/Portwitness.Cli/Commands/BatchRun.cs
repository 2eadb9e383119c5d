using System.CommandLine;
using Grpc.Core;
using Portwitness.Cli.Calls;
using Portwitness.Cli.Connection;
using Portwitness.Cli.Files;
using Portwitness.Contracts.V1;
using Portwitness.Reports.Json;
using Portwitness.Reports.Text;

namespace Portwitness.Cli.Commands;

/// <summary>Checks products side by side and reports them in order.</summary>
internal sealed class BatchRun(Terminal terminal, CommonOptions common, ParseResult parsed, Witness.WitnessClient client)
{
    private readonly bool _json = common.IsJson(parsed);
    private readonly bool _quiet = parsed.GetValue(common.Quiet);
    private readonly string? _directory = parsed.GetValue(common.Output);
    private readonly BatchSummary _summary = new();

    public async Task<int> RunAsync(IReadOnlyList<string> products, int atOnce, CancellationToken cancellation)
    {
        if (_directory is not null)
        {
            Directory.CreateDirectory(_directory);
        }

        IReadOnlyList<string> names = BatchProducts.ReportNames(products);
        using CancellationTokenSource stop = CancellationTokenSource.CreateLinkedTokenSource(cancellation);
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
                    window.Enqueue(Task.Run(() => CheckAsync(product, stop.Token), stop.Token));
                }

                Outcome outcome = await window.Dequeue();
                Write(outcome, names[written], $"[{written + 1}/{products.Count}]");
            }
        }
        finally
        {
            await stop.CancelAsync();
            await Task.WhenAll(window).ContinueWith(
                static _ => { }, CancellationToken.None, TaskContinuationOptions.None, TaskScheduler.Default);
        }

        if (!_quiet)
        {
            _summary.Write(_json && _directory is null ? terminal.Error : terminal.Output);
        }

        return _summary.ExitCode;
    }

    private async Task<Outcome> CheckAsync(string product, CancellationToken cancellation)
    {
        try
        {
            CheckSubject subject = await CheckSubject.FromProductAsync(product, cancellation);
            subject.Options.Edition = common.EditionFrom(parsed);
            subject.Options.Rules = common.RulesFrom(parsed);
            ProductReport report = await CheckDialogue.RunAsync(client, subject.Options, subject.Open, Progress.None, cancellation);
            return new Outcome(product, report, report.Unusable
                ? string.Join("; ", report.Faults.Select(FaultText.Of).DefaultIfEmpty("nothing could be judged"))
                : null);
        }
        catch (CommandFailure failure) when (failure.ExitCode == ExitCode.Unusable)
        {
            return new Outcome(product, null, failure.Message);
        }
        catch (RpcException exception) when (exception.StatusCode != StatusCode.Cancelled
            && ServiceFault.ExitCodeOf(exception) == ExitCode.Unusable)
        {
            return new Outcome(product, null, ServiceFault.Describe(exception));
        }
        catch (Exception exception) when (exception is IOException or UnauthorizedAccessException)
        {
            return new Outcome(product, null, exception.Message);
        }
    }

    private void Write(Outcome outcome, string name, string count)
    {
        if (outcome.Problem is { } problem)
        {
            _summary.AddUnreadable();
            terminal.Say($"{count} {outcome.Product}: CANNOT BE READ: {problem}");
        }
        else
        {
            _summary.Add(outcome.Report!.Verdict, common.ExitCodeFor(parsed, outcome.Report.Findings));
            if (!_quiet)
            {
                terminal.Say($"{count} {outcome.Product}: {ProductText.Word(outcome.Report.Verdict)}; findings: {ProductText.FindingSummary(outcome.Report)}");
            }
        }

        // Line by line, the output keeps to the order of the products.
        ProductReport report = outcome.Report ?? new ProductReport
        {
            Product = outcome.Product,
            Verdict = Verdict.CannotTell,
            Unusable = true,
            Faults = { new Fault { File = outcome.Product, Code = "product-unreadable", Detail = outcome.Problem } },
        };
        if (_directory is not null)
        {
            using AtomicFile file = AtomicFile.Create(Path.Combine(_directory, name + (_json ? ".json" : ".txt")));
            WriteReport(file.Writer, report, indented: true);
            file.Commit();
        }
        else if (_json && !_quiet)
        {
            WriteReport(terminal.Output, report, indented: false);
        }
    }

    private void WriteReport(TextWriter writer, ProductReport report, bool indented)
    {
        if (_json)
        {
            JsonReport.Write(writer, report, indented);
        }
        else
        {
            ProductText.Write(writer, report, TextStyle.Plain);
        }
    }

    private sealed record Outcome(string Product, ProductReport? Report, string? Problem);
}
