using Portwitness.Contracts.V1;
using Portwitness.Reports.Text;

namespace Portwitness.Reports.Comparing;

/// <summary>Why something may have changed from one report to another: files of its port, a line of the label, rules, the tool.</summary>
internal sealed class ErrataReasons
{
    private const int MaxFiles = 5;
    private const string ProductFile = "the product file";

    private readonly ProductReport _before;
    private readonly ProductReport _after;
    private readonly Dictionary<string, string> _old;
    private readonly Dictionary<string, string> _now;

    public ErrataReasons(ProductReport before, ProductReport after)
    {
        (_before, _after) = (before, after);
        (_old, _now) = (Hashes(before), Hashes(after));
        Changes = [.. OfFiles(_old.Keys.Concat(_now.Keys)), .. OfSettings()];
    }

    /// <summary>Everything that is different between the reports as wholes.</summary>
    public IReadOnlyList<string> Changes { get; }

    /// <summary>What is different where something of a port and a line of the label was judged; never empty.</summary>
    /// <param name="port">The port; empty for the product.</param>
    /// <param name="line">Line of the label; null for none.</param>
    public IReadOnlyList<string> Of(string port, int? line)
    {
        List<string> reasons = [.. OfFiles(FilesOf(_before, port).Concat(FilesOf(_after, port)))];
        if (line is { } at && LineOf(_before, at) is var one && LineOf(_after, at) is var other && one != other)
        {
            reasons.Add($"line {Amounts.Number(at)} of the label was \"{one}\" and is \"{other}\"");
        }

        return reasons.Count > 0 ? reasons : OfSettings() is { Count: > 0 } settings ? settings
            : Changes.Count > 0 ? Changes : ["nothing that the reports show explains it"];
    }

    private IEnumerable<string> OfFiles(IEnumerable<string> files)
    {
        string[] all = [.. files.Distinct()];
        (string One, string Several, string[] Files)[] kinds =
        [
            ("is new", "are new", [.. all.Where(file => !_old.ContainsKey(file) && _now.ContainsKey(file))]),
            ("is gone", "are gone", [.. all.Where(file => _old.ContainsKey(file) && !_now.ContainsKey(file))]),
            ("was changed", "were changed", [.. all.Where(file => _old.TryGetValue(file, out string? was) && _now.TryGetValue(file, out string? now) && was != now)]),
        ];
        foreach ((string one, string several, string[] named) in kinds.Where(static kind => kind.Files.Length > 0))
        {
            string rest = named.Length > MaxFiles ? $" and {Amounts.Number(named.Length - MaxFiles)} more" : "";
            yield return $"{string.Join(", ", named.Take(MaxFiles))}{rest} {(named.Length == 1 ? one : several)}";
        }
    }

    private List<string> OfSettings()
    {
        List<string> settings = [];
        if (_before.DecisionRule != _after.DecisionRule && _before.DecisionRule.Length > 0)
        {
            settings.Add($"readings near a limit were decided by {_before.DecisionRule} acceptance, and are by {_after.DecisionRule} acceptance");
        }

        if (!Equals(_before.Rules, _after.Rules))
        {
            settings.Add("other rules were applied");
        }

        if (_before.ToolVersion != _after.ToolVersion)
        {
            settings.Add($"version {_before.ToolVersion} of the tool judged, and now version {_after.ToolVersion}");
        }

        return settings;
    }

    // The files of a port, and for everything the product file, which has what was typed.
    private static IEnumerable<string> FilesOf(ProductReport report, string port)
    {
        IEnumerable<string> own = report.Ports.SelectMany(one => one.Arrangements.Where(piece => port.Length == 0 || piece.LabelPort == port || one.Port == port).Select(static piece => piece.File))
            .Concat(report.PowerLogs.Where(log => port.Length == 0 || log.Port.Length == 0 || log.Port == port).Select(static log => log.File))
            .Concat(report.Loads.Where(load => load.File.Length > 0 && (port.Length == 0 || load.Port == port || load.InUse.Contains(port))).Select(static load => load.File));
        return own.Append(ProductFile);
    }

    private static Dictionary<string, string> Hashes(ProductReport report)
    {
        Dictionary<string, string> hashes = [];
        HashSet<string> captured = [.. report.Ports.SelectMany(static port => port.Arrangements).Select(static piece => piece.File)];
        for (int i = 0; i < report.Inputs.Count; i++)
        {
            // The product file comes first, and is called what its path is: each report means its own.
            hashes[i == 0 && !captured.Contains(report.Inputs[i].File) ? ProductFile : report.Inputs[i].File] = report.Inputs[i].Sha256;
        }

        return hashes;
    }

    private static string LineOf(ProductReport report, int line)
    {
        string[] lines = report.Label?.Text.ReplaceLineEndings("\n").Split('\n') ?? [];
        return line >= 1 && line <= lines.Length ? lines[line - 1].Trim() : "";
    }
}
