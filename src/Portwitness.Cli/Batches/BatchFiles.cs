using Google.Protobuf;
using Portwitness.Cli.Calls;
using Portwitness.Cli.Files;
using Portwitness.Cli.Shell;
using Portwitness.Contracts.V1;
using Portwitness.Reports;
using Portwitness.Reports.Formats;
using Portwitness.Reports.Html;
using Portwitness.Reports.Json;

namespace Portwitness.Cli.Batches;

/// <summary>What is written once for a whole batch, from the reports that are in its folder, one at a time.</summary>
/// <param name="folder">The folder of reports; null when there is none.</param>
/// <param name="formats">What was asked for.</param>
/// <param name="ofEach">The formats of each product's own files.</param>
/// <param name="client">The service, for its rules.</param>
internal sealed class BatchFiles(string? folder, IReadOnlyList<ReportFormat> formats, IReadOnlyList<ReportFormat> ofEach, Witness.WitnessClient client)
{
    private readonly List<ReportedProduct> _products = [];
    private readonly List<string?> _links = [];
    private readonly List<string> _problems = [];

    /// <summary>Products of which there are several samples.</summary>
    public BatchSpreads Spreads { get; init; } = new();

    private bool IsNeeded => folder is not null && formats.Any(static format => format.HoldsMany || BatchFormats.IsIndexed(format));

    /// <summary>Takes a product; its reports are in place.</summary>
    public void Add(BatchOutcome outcome)
    {
        BatchEntry entry = outcome.Entry;
        string report = entry.Report.Length > 0 && folder is not null ? Path.Combine(folder, entry.Report) : entry.EarlierReport;
        string path = report.EndsWith(ofEach[0].Ending, StringComparison.Ordinal) ? BatchFormats.Beside(report, ofEach[0], ReportFormat.Json) : "";
        Spreads.Add(entry, entry.Problem is null && File.Exists(path) ? path : "");
        if (!IsNeeded)
        {
            return;
        }

        Func<ProductReport> read = outcome.Substitute is { } substitute ? () => substitute : () => Read(outcome.Product, path);
        _products.Add(CheckSubject.Reported(outcome.Product, entry.Verdict, entry.ExitCode, read));
        string page = path.Length == 0 ? "" : BatchFormats.Beside(path, ReportFormat.Json, ReportFormat.Html);
        _links.Add(File.Exists(page) ? Path.GetRelativePath(folder!, page) : null);
    }

    /// <summary>Writes the files; one that fails does not stop the others.</summary>
    /// <returns>What is amiss, in words.</returns>
    public async Task<IReadOnlyList<string>> WriteAsync(CancellationToken cancellation)
    {
        if (folder is not null)
        {
            Spreads.Collect(EarlierReport.Read, _problems.Add);
            foreach ((string name, IReadOnlyList<IMessage> lines) in Spreads.Files())
            {
                Write(name, writer =>
                {
                    foreach (IMessage line in lines)
                    {
                        JsonReport.Write(writer, line, indented: false);
                    }
                });
            }
        }

        foreach (ReportFormat format in IsNeeded ? formats.Where(static format => format.HoldsMany) : [])
        {
            ReportSet set = new(_products) { Rules = await RuleList.ForAsync(format, client, cancellation) };
            Write(BatchFormats.BatchName + format.Ending, writer => format.Write(writer, set));
        }

        if (IsNeeded && formats.Any(BatchFormats.IsIndexed))
        {
            Write(BatchFormats.IndexName, writer => BatchPage.Write(writer, _products.Zip(_links)));
        }

        return [.. _problems.Distinct()];
    }

    // Its files were whole when the batch began, or were written by it; whoever damages them now loses one product only.
    private ProductReport Read(string product, string path)
    {
        try
        {
            return EarlierReport.Read(path);
        }
        catch (CommandFailure failure)
        {
            _problems.Add(failure.Message);
            return BatchOutcome.ReportOf(product, failure.Message);
        }
    }

    private void Write(string name, Action<TextWriter> write)
    {
        try
        {
            using AtomicFile file = AtomicFile.Create(Path.Combine(folder!, name));
            write(file.Writer);
            file.Commit();
        }
        catch (Exception exception) when (exception is not OperationCanceledException)
        {
            _problems.Add($"{name}: cannot be written: {ReportFiles.WhyOf(exception)}");
        }
    }
}
