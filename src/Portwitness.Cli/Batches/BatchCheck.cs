using System.CommandLine;
using Grpc.Core;
using Portwitness.Cli.Calls;
using Portwitness.Cli.Connection;
using Portwitness.Cli.Files;
using Portwitness.Cli.Options;
using Portwitness.Cli.Photos;
using Portwitness.Cli.Shell;
using Portwitness.Contracts.V1;
using Portwitness.Reports;
using Portwitness.Reports.Text;

namespace Portwitness.Cli.Batches;

/// <summary>Checks one product and writes its report. Whatever goes wrong is the product's, but for a service that went away.</summary>
/// <param name="terminal">Where to say what was not kept.</param>
/// <param name="common">The options of the command line.</param>
/// <param name="parsed">Their values.</param>
/// <param name="service">The service.</param>
/// <param name="known">How products came out before, which are not checked again as long as their files are the same.</param>
internal sealed class BatchCheck(
    Terminal terminal, CommonOptions common, ParseResult parsed, ServiceConnection service, IReadOnlyDictionary<string, BatchEntry> known)
{
    private string Settings => common.SettingsFrom(parsed) + (PhotoLanguages == PhotoReading.UsualLanguages ? "" : $"; photos {PhotoLanguages}");

    /// <summary>The label of captures; null for products, which have their own.</summary>
    public string? Label { get; init; }

    /// <summary>Languages of photos.</summary>
    public string PhotoLanguages { get; init; } = PhotoReading.UsualLanguages;

    /// <summary>Whether reports need what plots are drawn from.</summary>
    public bool Plots { get; init; }

    /// <summary>Writes reports; null without a folder of them.</summary>
    public ReportFiles? Files { get; init; }

    /// <summary>Checks a product.</summary>
    /// <param name="product">Which.</param>
    /// <param name="name">Its report's name.</param>
    /// <param name="cancellation">Stops it.</param>
    public async Task<BatchOutcome> RunAsync(BatchProduct product, string name, CancellationToken cancellation)
    {
        PhotoReading photos = new(PhotoLanguages, keepsPictures: Plots);
        BatchOutcome outcome = await JudgeAsync(product, name, photos, cancellation);
        if (outcome.Report is not { } report || Files is null)
        {
            return outcome;
        }

        ReportedProduct reported = CheckSubject.Reported(product.Path, report.Verdict, outcome.Entry.ExitCode, () => report) with { Pictures = photos.Pictures };
        try
        {
            return outcome with { Entry = outcome.Entry with { ReportDigests = Files.Write(name, reported) } };
        }
        catch (CommandFailure failure)
        {
            BatchOutcome unwritten = Unreadable(product, name, failure.Message) with { IsUnwritten = true };
            Files.Replace(name, unwritten.Report!, reported);
            return unwritten;
        }
    }

    private async Task<BatchOutcome> JudgeAsync(BatchProduct product, string name, PhotoReading photos, CancellationToken cancellation)
    {
        if (product.Problem is { } problem)
        {
            return Unreadable(product, name, problem);
        }

        try
        {
            CheckSubject subject = Label is null
                ? await CheckSubject.FromProductAsync(product.Path, photos, cancellation) : CheckSubject.FromCaptureFile(product.Path, Label);
            if (known.TryGetValue(Path.GetFullPath(product.Path), out BatchEntry? earlier) && earlier.Settings == Settings
                && IsNamed(earlier, name) && await InputDigests.AreSameAsync(earlier, subject, cancellation))
            {
                return new BatchOutcome(product.Path, earlier, null);
            }

            InputDigests digests = new(subject);
            common.SetTo(subject.Options, parsed);
            subject.Options.Plots = Plots;
            ProductReport found = await ResilientCalls.RunAsync(
                service.Again,
                token => CheckDialogue.RunAsync(service.Client, subject.Options, digests.Around(subject.Open), Progress.None, token), cancellation);
            bool isKept = StoredReports.SayWhatWasNotKept(found, terminal);
            return Came(product, name, found, digests.Digests, !isKept ? "its report could not be kept" : found.Unusable
                ? string.Join("; ", found.Faults.Select(FaultListText.Of).DefaultIfEmpty("nothing could be judged"))
                : null);
        }
        catch (CommandFailure failure) when (failure.ExitCode == ExitCode.Unusable)
        {
            return Unreadable(product, name, failure.Message);
        }
        catch (RpcException exception) when (exception.StatusCode != StatusCode.Cancelled && ServiceFault.ExitCodeOf(exception) == ExitCode.Unusable)
        {
            return Unreadable(product, name, ServiceFault.Describe(exception));
        }
        catch (Exception exception) when (exception is not (OperationCanceledException or CommandFailure or RpcException))
        {
            return Unreadable(product, name, ReportFiles.WhyOf(exception));
        }
    }

    // One that is left in another folder has its own name there.
    private static bool IsNamed(BatchEntry earlier, string name) => earlier.Report.Length > 0 ? earlier.Report == name
        : Path.GetExtension(earlier.EarlierReport) == Path.GetExtension(name);

    // Line by line, the output keeps to the order of the products.
    private BatchOutcome Unreadable(BatchProduct product, string name, string problem) =>
        Came(product, name, BatchOutcome.ReportOf(product.Path, problem), new Dictionary<string, string>(), problem);

    private BatchOutcome Came(
        BatchProduct product, string name, ProductReport found, IReadOnlyDictionary<string, string> inputs, string? problem) => new(
        product.Path,
        new BatchEntry
        {
            Product = Path.GetFullPath(product.Path),
            Report = name,
            ReportDigests = new Dictionary<string, string>(),
            Settings = Settings,
            Inputs = inputs,
            Verdict = found.Verdict,
            Name = found.Product,
            Sample = found.Sample,
            Firmware = found.Firmware,
            Problem = problem,
            ExitCode = problem is null ? common.ExitCodeFor(parsed, found.Findings) : ExitCode.Unusable,
            Findings = found.Findings.CountBy(finding => finding.Rule).ToDictionary(),
        },
        found);
}
