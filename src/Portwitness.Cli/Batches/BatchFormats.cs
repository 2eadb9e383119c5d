using Portwitness.Reports.Formats;

namespace Portwitness.Cli.Batches;

/// <summary>Which files a batch writes for each product, and which once.</summary>
internal static class BatchFormats
{
    /// <summary>The folder's page that links the products.</summary>
    public const string IndexName = "index.html";

    /// <summary>Files of the whole batch are called so, with their format's ending.</summary>
    public const string BatchName = "batch";

    /// <summary>
    /// The formats of each product's own files; the first one names them. What is written once is made from JSON, which is then among
    /// them: so it can be made of reports that another run wrote.
    /// </summary>
    public static IReadOnlyList<ReportFormat> OfEach(IReadOnlyList<ReportFormat> asked, bool intoFolder)
    {
        ReportFormat[] own = [.. asked.Where(static format => !format.HoldsMany)];
        return intoFolder && asked.Any(static format => format.HoldsMany || IsIndexed(format)) && !own.Contains(ReportFormat.Json)
            ? [ReportFormat.Json, .. own] : own;
    }

    /// <summary>Whether a page links the files of a format.</summary>
    public static bool IsIndexed(ReportFormat format) => format == ReportFormat.Html;

    /// <summary>The name of a product's file in another format.</summary>
    public static string Beside(string report, ReportFormat of, ReportFormat format) => report[..^of.Ending.Length] + format.Ending;
}
