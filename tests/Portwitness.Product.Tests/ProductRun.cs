using System.Text;
using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Findings;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Limits;
using Portwitness.Tests;

namespace Portwitness.Product.Tests;

/// <summary>Runs a product check on text.</summary>
internal static class ProductRun
{
    /// <summary>Words against a label.</summary>
    public static ProductAnalysis Words(string words, string label, Editions? edition = null, string? port = null) =>
        Loose(words, label, edition, port);

    /// <summary>A capture whose header has these members and whose only list these words; the contract is reached.</summary>
    public static ProductAnalysis Capture(string headerMembers, string words, string label, string? port = null) =>
        Loose(Text(headerMembers, words), label, null, port);

    /// <summary>Captures of several ports and arrangements, each with a contract.</summary>
    public static ProductAnalysis Several(string label, IReadOnlyList<(string Port, string InUse, string Words)> captures)
    {
        ProductCheck check = ProductCheck.ForProduct(
            "product.yaml",
            $"product: x\nlabel: \"{label.Replace("\n", "\\n", StringComparison.Ordinal)}\"\ncaptures:\n"
                + string.Concat(captures.Select(static (one, index) => $"  - {{file: c{index}, port: {one.Port}, in_use: [{one.InUse}]}}\n")),
            null);
        foreach ((string file, (_, _, string words)) in check.Files.Zip(captures))
        {
            check.Open(file).Write(Encoding.UTF8.GetBytes(Text("\"edition\":\"R3.0\"", words)));
            check.Close();
        }

        return check.Complete();
    }

    /// <summary>A product file that names no files.</summary>
    public static ProductAnalysis Typed(string text)
    {
        using ProductCheck check = ProductCheck.ForProduct("product.yaml", text, edition: null);
        check.Files.Should().BeEmpty();
        return check.Complete();
    }

    /// <summary>A product folder of the demo.</summary>
    public static ProductAnalysis Folder(string folder)
    {
        string path = Repository.PathOf("captures", folder);
        ProductCheck check = ProductCheck.ForProduct(
            "product.yaml", File.ReadAllText(Path.Combine(path, "product.yaml")), null);
        foreach (string file in check.Files)
        {
            check.Open(file).Write(File.ReadAllBytes(Path.Combine(path, file)));
            check.Close();
        }

        foreach (string file in check.Logs.Select(static log => log.File).ToArray())
        {
            check.OpenLog().Write(File.ReadAllBytes(Path.Combine(path, file)));
            check.CloseLog();
        }

        return check.Complete();
    }

    /// <summary>"severity rule@line" of each finding.</summary>
    public static IEnumerable<string> Summary(this ProductAnalysis analysis) => analysis.Findings.Select(finding =>
        $"{finding.Severity.ToString().ToLowerInvariant()} {finding.Rule}"
        + (finding.LabelLine is { } line ? $"@{line}" : ""));

    /// <summary>The findings that bear on the verdict.</summary>
    public static IEnumerable<Finding> Accusations(this ProductAnalysis analysis) =>
        analysis.Findings.Where(finding => finding.Severity is Severity.Violation or Severity.Mismatch);

    private static string Text(string headerMembers, string words)
    {
        byte[] list = CapabilityMessage.Bytes(MessageKind.SourceCapabilities, 2, CapabilityMessage.Words(words));
        return $$"""
            {"capture":1{{(headerMembers.Length == 0 ? "" : ",")}}{{headerMembers}}}
            {"t":100000,"sop":"SOP","hex":"{{Convert.ToHexString(list)}}"}
            {"t":102000,"sop":"SOP","hex":"82102CB10413"}
            {"t":104000,"sop":"SOP","hex":"A303"}
            {"t":204000,"sop":"SOP","hex":"A605"}
            """;
    }

    private static ProductAnalysis Loose(string text, string label, Editions? edition, string? port)
    {
        ProductCheck check = ProductCheck.ForCapture("capture", label, port, edition);
        check.Open("capture").Write(Encoding.UTF8.GetBytes(text));
        check.Close();
        ProductAnalysis analysis = check.Complete();
        GoldenFindings.Check(analysis.Findings);
        return analysis;
    }
}
