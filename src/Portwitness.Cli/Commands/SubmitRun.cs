using System.CommandLine;
using Grpc.Core;
using Portwitness.Cli.Batches;
using Portwitness.Cli.Calls;
using Portwitness.Cli.Connection;
using Portwitness.Cli.Files;
using Portwitness.Cli.Options;
using Portwitness.Cli.Photos;
using Portwitness.Cli.Shell;
using Portwitness.Contracts.V1;
using Portwitness.Reports.Text;

namespace Portwitness.Cli.Commands;

/// <summary>Submits products side by side; one that cannot be sent does not stop the others, a service that stays away does.</summary>
internal sealed class SubmitRun(Terminal terminal, CommonOptions common, ParseResult parsed, ServiceConnection service, ReportOutput output)
{
    private static readonly TimeSpan FirstLook = TimeSpan.FromMilliseconds(200);
    private static readonly TimeSpan LongestLook = TimeSpan.FromSeconds(3);

    private readonly Lock _writing = new();
    private int _exitCode = ExitCode.Clean;
    private int _accepted;

    /// <summary>The label of captures; null for products, which have their own.</summary>
    public string? Label { get; init; }

    /// <summary>How photos are read.</summary>
    public PhotoReading Photos { get; init; } = new();

    /// <summary>Whether reports are waited for.</summary>
    public bool Wait { get; init; }

    /// <summary>So long each report is waited for; null for ever.</summary>
    public TimeSpan? LongestWait { get; init; }

    public async Task<int> RunAsync(IReadOnlyList<BatchProduct> products, int atOnce, CancellationToken cancellation)
    {
        ParallelOptions options = new() { MaxDegreeOfParallelism = atOnce, CancellationToken = cancellation };
        await Parallel.ForEachAsync(products, options, async (product, token) => await SubmitAsync(product, token));
        terminal.Say($"{_accepted} of {products.Count} {(Wait ? "judged" : "accepted")}.");
        return _exitCode;
    }

    private async Task SubmitAsync(BatchProduct found, CancellationToken cancellation)
    {
        string product = found.Path;
        if (found.Problem is { } problem)
        {
            Fail(product, problem);
            return;
        }

        try
        {
            CheckSubject subject = Label is null ? await CheckSubject.FromProductAsync(product, Photos, cancellation) : CheckSubject.FromCaptureFile(product, Label);
            common.SetTo(subject.Options, parsed);
            Submission submission = await new SubmitDialogue(service, subject, Progress.None).RunAsync(cancellation);
            if (!Wait)
            {
                Tell(product, submission, ExitCode.Clean, "");
                return;
            }

            submission = await WaitForAsync(submission, cancellation);
            if (submission.State == SubmissionState.Queued)
            {
                GiveUp(product, submission);
                return;
            }

            ProductReport? report = submission.State == SubmissionState.Done
                ? await service.Client.GetReportAsync(new GetReportRequest { Id = submission.ReportId }, cancellationToken: cancellation) : null;
            Tell(
                product, submission, report is null or { Unusable: true } ? ExitCode.Unusable : common.ExitCodeFor(parsed, report.Findings),
                report is null ? "" : $", {ProductText.Word(report.Verdict)}");
        }
        catch (CommandFailure failure) when (failure.ExitCode == ExitCode.Unusable)
        {
            Fail(product, failure.Message);
        }
        catch (RpcException exception) when (exception.StatusCode != StatusCode.Cancelled && ServiceFault.ExitCodeOf(exception) == ExitCode.Unusable)
        {
            Fail(product, ServiceFault.Describe(exception));
        }
        catch (Exception exception) when (exception is IOException or UnauthorizedAccessException)
        {
            Fail(product, exception.Message);
        }
    }

    private async Task<Submission> WaitForAsync(Submission submission, CancellationToken cancellation)
    {
        long begun = TimeProvider.System.GetTimestamp();
        for (TimeSpan pause = FirstLook; submission.State == SubmissionState.Queued; pause = pause * 1.5 < LongestLook ? pause * 1.5 : LongestLook)
        {
            TimeSpan left = LongestWait is { } longest ? longest - TimeProvider.System.GetElapsedTime(begun) : pause;
            if (left <= TimeSpan.Zero)
            {
                break;
            }

            await Task.Delay(pause < left ? pause : left, cancellation);
            submission = await service.Client.GetSubmissionAsync(new GetSubmissionRequest { Key = submission.Key }, cancellationToken: cancellation);
        }

        return submission;
    }

    private void Tell(string product, Submission submission, int exitCode, string verdict) => Write(exitCode, () =>
    {
        _accepted += submission.State == SubmissionState.Parked ? 0 : 1;
        if (output.Json)
        {
            output.WriteJson(submission);
        }
        else
        {
            output.Writer.WriteLine($"{product}: {SubmissionText.Word(submission)}{verdict}");
        }
    });

    private void GiveUp(string product, Submission submission) => Write(ExitCode.NoService, () =>
    {
        string why = submission.Problem.Length > 0 ? $" The last try: {VisibleText.Of(submission.Problem)}" : "";
        terminal.Say($"{product}: no report after {LongestWait!.Value.TotalSeconds:0} s; the submission is kept. Run the same command again to go on waiting.{why}");
    });

    private void Fail(string product, string problem) => Write(ExitCode.Unusable, () => terminal.Say($"{product}: {problem}"));

    private void Write(int exitCode, Action write)
    {
        lock (_writing)
        {
            _exitCode = Math.Max(_exitCode, exitCode);
            write();
        }
    }
}
