using System.CommandLine;
using Portwitness.Cli.Connection;
using Portwitness.Cli.Files;
using Portwitness.Cli.Options;
using Portwitness.Cli.Photos;
using Portwitness.Cli.Shell;
using Portwitness.Contracts.V1;
using Portwitness.Reports.Text;

namespace Portwitness.Cli.Calls;

/// <summary>The report of a product, as it was written before or judged now.</summary>
internal sealed class JudgedProduct(ServiceConnection service, CommonOptions common, ParseResult parsed, PhotoReading photos, Terminal terminal)
{
    /// <param name="path">An earlier report in JSON, a product's folder, its product file, or a capture.</param>
    /// <param name="label">The label of a capture; null for none.</param>
    /// <param name="cancellation">Stops the call.</param>
    /// <exception cref="CommandFailure">Nothing of it could be judged.</exception>
    public async Task<ProductReport> ReportAsync(string path, string? label, CancellationToken cancellation)
    {
        if (EarlierReport.TryRead(path) is { } earlier)
        {
            return earlier;
        }

        CheckSubject subject = await CheckSubject.FromAsync(null, path, label, null, null, null, terminal, photos, cancellation);
        common.SetTo(subject.Options, parsed);
        ProductReport report = await CheckDialogue.RunAsync(service.Client, subject.Options, subject.Open, common.ProgressFor(parsed, terminal), cancellation);
        return !report.Unusable ? report : throw new CommandFailure(
            $"{path}: nothing of it could be judged. {string.Join(" ", report.Faults.Take(1).Select(FaultListText.Of))}");
    }
}
