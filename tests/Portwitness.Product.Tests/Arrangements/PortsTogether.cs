using System.Globalization;
using System.Text;
using Portwitness.Analysis.Findings;
using Portwitness.Product.Arrangements;

namespace Portwitness.Product.Tests.Arrangements;

/// <summary>One capture of a product.</summary>
/// <param name="Port">The captured port.</param>
/// <param name="Text">A script, or the capture itself.</param>
/// <param name="Members">More members of the product file's entry, for example "in_use: [C2, C1]".</param>
internal sealed record PortCapture(string Port, string Text, string Members = "");

/// <summary>What one port offers alone, as the first of two that are attached, and as the second.</summary>
internal sealed record Offers(string Alone, string First, string Second);

/// <summary>Checks products of several ports that scripts describe.</summary>
internal static class PortsTogether
{
    public static ProductAnalysis Check(string label, params PortCapture[] captures)
    {
        StringBuilder product = new("product: x\n");
        if (label.Length > 0)
        {
            product.Append(CultureInfo.InvariantCulture, $"label: \"{label.Replace("\n", "\\n", StringComparison.Ordinal)}\"\n");
        }

        product.Append("captures:\n");
        for (int at = 0; at < captures.Length; at++)
        {
            string more = captures[at].Members.Length > 0 ? ", " + captures[at].Members : "";
            product.Append(CultureInfo.InvariantCulture, $"  - {{file: f{at}, port: {captures[at].Port}{more}}}\n");
        }

        return Check(product.ToString(), captures.Select(one => one.Text.StartsWith('{') ? Encoding.UTF8.GetBytes(one.Text) : Synthesised.Bytes(one.Text)));
    }

    public static ProductAnalysis Check(string productFile, IEnumerable<byte[]> captures)
    {
        using ProductCheck check = ProductCheck.ForProduct("product.yaml", productFile, null);
        foreach ((string file, byte[] bytes) in check.Files.Zip(captures, (file, bytes) => (file, bytes)))
        {
            check.Open(file).Write(bytes);
            check.Close();
        }

        ProductAnalysis analysis = check.Complete();
        GoldenFindings.Check(analysis.Findings);
        return analysis;
    }

    /// <summary>C1 and C2 in both attach orders; VBUS of the first goes for so many milliseconds when the second comes.</summary>
    public static PortCapture[] BothOrders(Offers c1, Offers c2, int outOfC1, int outOfC2) =>
    [
        new("C1", First("C1", "C2", c1, outOfC1)), new("C2", Second("C1", "C2", c2)),
        new("C2", First("C2", "C1", c2, outOfC2)), new("C1", Second("C2", "C1", c1)),
    ];

    /// <summary>A port that is attached first: alone, then beside the other, measured every millisecond.</summary>
    public static string First(string port, string other, Offers offers, int outMilliseconds) =>
        $"""
        port: {port}
        in_use: [{port}]
        edition: R3.0
        cable: 5A captive
        measured_at: source
        accuracy: {"{"}vbus_mv: 10, ibus_ma: 10{"}"}
        source:
          alone: [{offers.Alone}]
          first: [{offers.First}]
        steps:
          - attach
          - advertise alone
          - contract 1 at 1A
          - pause 1s
          - measure 5V 1A every 1ms for 50ms
          - attach {other}
          - measure 5V 1A every 1ms for 20ms
          {(outMilliseconds > 0 ? $"- measure 0.2V 0A every 1ms for {outMilliseconds}ms" : "- pause 1ms")}
          - measure 5V 1A every 1ms for 50ms
          - advertise first
          - contract 1 at 1A
          - pause 300ms
          - measure 5V 1A every 1ms for 50ms

        """;

    /// <summary>A port that nothing is attached beside.</summary>
    public static string Alone(string port, string list) =>
        $"""
        port: {port}
        in_use: [{port}]
        edition: R3.0
        cable: 5A captive
        source: [{list}]
        steps:
          - attach
          - advertise
          - contract 1 at 1A

        """;

    /// <summary>A port that is attached to a product whose other port is in use.</summary>
    public static string Second(string other, string port, Offers offers) =>
        $"""
        port: {port}
        in_use: [{other}, {port}]
        attach_order: [{other}, {port}]
        edition: R3.0
        cable: 5A captive
        source: [{offers.Second}]
        steps:
          - attach
          - advertise
          - contract 1 at 1A

        """;

    /// <summary>The only transition in which something was attached to a port.</summary>
    public static Transition Attached(this ProductAnalysis analysis, string neighbour) =>
        analysis.Arrangements!.Transitions.Single(one => one.Attached && one.Neighbour == neighbour);

    /// <summary>The findings of one rule, notes left out where asked.</summary>
    public static IEnumerable<Finding> Of(this ProductAnalysis analysis, string rule) => analysis.Findings.Where(finding => finding.Rule == rule);
}
