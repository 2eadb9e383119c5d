using Portwitness.Reports.Csv;
using Portwitness.Reports.Html;
using Portwitness.Reports.Json;
using Portwitness.Reports.Junit;
using Portwitness.Reports.Markdown;
using Portwitness.Reports.Sarif;
using Portwitness.Reports.Text;

namespace Portwitness.Reports.Formats;

/// <summary>A format of products' reports.</summary>
/// <param name="Name">As --format names it.</param>
/// <param name="Ending">What names of its files end in.</param>
/// <param name="Write">Writes a file of it.</param>
public sealed record ReportFormat(string Name, string Ending, Action<TextWriter, ReportSet> Write)
{
    /// <summary>For people at a terminal.</summary>
    public static ReportFormat Plain { get; } = new("text", ".txt", ProductText.Write) { TellsUnusable = false };

    /// <summary>The contract's message, from which every other format can be made.</summary>
    public static ReportFormat Json { get; } = new("json", ".json", JsonReport.Write);

    /// <summary>A page.</summary>
    public static ReportFormat Html { get; } = new("html", ".html", ProductPage.Write) { DrawsPlots = true };

    /// <summary>Every format, in the order of the help.</summary>
    public static IReadOnlyList<ReportFormat> All { get; } =
    [
        Plain,
        Json,
        new("markdown", ".md", MarkdownReport.Write),
        Html,
        new("csv-findings", ".findings.csv", FindingCsv.Write) { HoldsMany = true },
        new("csv-offers", ".offers.csv", OfferCsv.Write) { HoldsMany = true },
        new("junit", ".junit.xml", JunitReport.Write) { HoldsMany = true },
        new("sarif", ".sarif", SarifReport.Write) { HoldsMany = true, DescribesRules = true },
    ];

    /// <summary>Their names.</summary>
    public static IReadOnlyList<string> Names { get; } = [.. All.Select(static format => format.Name)];

    /// <summary>Whether one file of it holds the products of a batch.</summary>
    public bool HoldsMany { get; init; }

    /// <summary>Whether it has a word for a product of which nothing could be judged.</summary>
    public bool TellsUnusable { get; init; } = true;

    /// <summary>Whether it wants the rule catalogue.</summary>
    public bool DescribesRules { get; init; }

    /// <summary>Whether it wants what plots are drawn from.</summary>
    public bool DrawsPlots { get; init; }

    /// <summary>The format of a name that <see cref="All"/> has.</summary>
    public static ReportFormat Of(string name) => All.Single(format => format.Name == name);
}
