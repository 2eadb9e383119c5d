using System.CommandLine;
using Google.Protobuf;
using Portwitness.Cli.Files;
using Portwitness.Cli.Shell;
using Portwitness.Contracts.V1;
using Portwitness.Reports;
using Portwitness.Reports.Formats;
using Portwitness.Reports.Json;
using Portwitness.Reports.Markdown;
using Portwitness.Reports.Text;

namespace Portwitness.Cli.Options;

/// <summary>Where a report goes: standard output, a file, or nowhere when quiet.</summary>
internal sealed class ReportOutput : IDisposable
{
    /// <summary>The word of --format for Markdown.</summary>
    public const string MarkdownName = "markdown";

    private readonly Terminal _terminal;
    private readonly string? _path;
    private readonly bool _quiet;
    private readonly bool _indented;
    private readonly bool _markdown;
    private AtomicFile? _file;

    /// <param name="terminal">Where standard output is.</param>
    /// <param name="options">The options of the command.</param>
    /// <param name="parsed">Their values.</param>
    /// <param name="single">Whether there is one object only, which a person may want to read.</param>
    public ReportOutput(Terminal terminal, CommonOptions options, ParseResult parsed, bool single)
    {
        _terminal = terminal;
        _path = parsed.GetValue(options.Output);
        _quiet = parsed.GetValue(options.Quiet);
        Json = options.IsJson(parsed);
        _markdown = parsed.GetValue(options.Format) == MarkdownName;
        bool watched = _path is null && terminal.OutputIsTerminal;
        _indented = watched && single;
        bool color = watched && !terminal.NoColor && !parsed.GetValue(options.NoColor);
        Style = watched ? new TextStyle(color, terminal.Columns) : TextStyle.Plain;
    }

    public bool Json { get; }

    public TextStyle Style { get; }

    /// <summary>Opened at the first use, so that a command that fails before leaves nothing.</summary>
    public TextWriter Writer => _path is not null
        ? (_file ??= AtomicFile.Create(_path)).Writer
        : _quiet ? TextWriter.Null : _terminal.Output;

    /// <summary>A product's report in any format.</summary>
    public void Write(ReportFormat format, ReportSet set) => format.Write(Writer, set with { Style = Style, Indented = _indented });

    /// <summary>What differs between two reports, as text or JSON; it is complete then.</summary>
    public void Write(ReportComparison comparison)
    {
        if (Json)
        {
            WriteJson(comparison);
        }
        else
        {
            ComparisonText.Write(Writer, comparison, Style);
        }

        Commit();
    }

    /// <summary>An article held against a report, as text or JSON; it is complete then.</summary>
    public void Write(ArticleProof proof, bool isAll)
    {
        if (Json)
        {
            WriteJson(proof);
        }
        else
        {
            ProofText.Write(Writer, proof, isAll, Style);
        }

        Commit();
    }

    /// <summary>A plan, as text, Markdown or JSON; it is complete then.</summary>
    public void Write(BenchPlan plan)
    {
        if (Json)
        {
            WriteJson(plan);
        }
        else if (_markdown)
        {
            MarkdownPlan.Write(Writer, plan);
        }
        else
        {
            PlanText.Write(Writer, plan, Style);
        }

        Commit();
    }

    /// <summary>Errata, as text, Markdown or JSON; they are complete then.</summary>
    public void Write(Errata errata)
    {
        if (Json)
        {
            WriteJson(errata);
        }
        else if (_markdown)
        {
            MarkdownErrata.Write(Writer, errata);
        }
        else
        {
            ErrataText.Write(Writer, errata, Style);
        }

        Commit();
    }

    public void WriteJson(IMessage message) => JsonReport.Write(Writer, message, _indented);

    public JsonReport.StreamedCapture BeginJsonCapture() => JsonReport.BeginCapture(Writer, _indented);

    /// <summary>The report is complete.</summary>
    public void Commit() => _file?.Commit();

    public void Dispose() => _file?.Dispose();
}
