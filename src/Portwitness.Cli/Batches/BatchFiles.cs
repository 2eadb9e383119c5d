using Google.Protobuf;
using Portwitness.Cli.Calls;
using Portwitness.Cli.Files;
using Portwitness.Contracts.V1;
using Portwitness.Reports;
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
    private readonly List<string> _links = [];
    private readonly List<string> _unlisted = [];

    /// <summary>Products of which there are several samples.</summary>
    public BatchSpreads Spreads { get; } = new();

    private bool IsNeeded => folder is not null && formats.Any(static format => format.HoldsMany || BatchFormats.IsIndexed(format));

    /// <summary>Takes a product; its reports are in place.</summary>
    public void Add(string product, BatchEntry entry)
    {
        ReportFormat json = ReportFormat.Of("json");
        string report = entry.Report.Length > 0 && folder is not null ? Path.Combine(folder, entry.Report) : entry.EarlierReport;
        string path = report.EndsWith(ofEach[0].Ending, StringComparison.Ordinal) ? BatchFormats.Beside(report, ofEach[0], json) : "";
        bool isThere = File.Exists(path);
        Spreads.Add(entry, isThere ? path : "");
        if (!IsNeeded)
        {
            return;
        }

        if (!isThere)
        {
            _unlisted.Add($"{product}: its earlier report is not JSON; files of the whole batch leave it out.");
            return;
        }

        _products.Add(CheckSubject.Reported(product, entry.Verdict, entry.ExitCode, () => EarlierReport.Read(path)));
        _links.Add(Path.GetRelativePath(folder!, BatchFormats.Beside(path, json, ReportFormat.Of("html"))));
    }

    /// <summary>Writes the files.</summary>
    /// <returns>What they leave out, in words.</returns>
    public async Task<IReadOnlyList<string>> WriteAsync(CancellationToken cancellation)
    {
        if (folder is not null)
        {
            Spreads.Collect(EarlierReport.Read);
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

        if (!IsNeeded)
        {
            return [];
        }

        foreach (ReportFormat format in formats.Where(static format => format.HoldsMany))
        {
            ReportSet set = new(_products) { Rules = await RuleList.ForAsync(format, client, cancellation) };
            Write(BatchFormats.BatchName + format.Ending, writer => format.Write(writer, set));
        }

        if (formats.Any(BatchFormats.IsIndexed))
        {
            Write(BatchFormats.IndexName, writer => BatchPage.Write(writer, _products.Zip(_links)));
        }

        return _unlisted;
    }

    private void Write(string name, Action<TextWriter> write)
    {
        using AtomicFile file = AtomicFile.Create(Path.Combine(folder!, name));
        write(file.Writer);
        file.Commit();
    }
}
