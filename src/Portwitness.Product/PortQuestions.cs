using Portwitness.Analysis;
using Portwitness.Analysis.Phrases;
using Portwitness.Labels;
using Portwitness.Text;

namespace Portwitness.Product;

/// <summary>
/// Ports that the label does not name, beside printed ports of which nothing was seen: they may be the same. That is asked, never assumed.
/// </summary>
internal static class PortQuestions
{
    private const int Most = 20;

    /// <summary>One question for each port that is likely to be another's.</summary>
    public static IEnumerable<Phrase> Of(Label? label, ProductFile product, IEnumerable<CaptureAnalysis> captures)
    {
        if (label is null)
        {
            return [];
        }

        string[] used =
        [
            .. captures.SelectMany(static capture => capture.Arrangement.Append(capture.Port))
                .Concat(product.Offers.SelectMany(static one => one.InUse.Append(one.Port)))
                .Concat(product.Loads.SelectMany(static one => one.InUse.Append(one.Port)))
                .Concat(product.Logs.Select(static one => one.Port ?? ""))
                .Concat(product.Signalling.Select(static one => one.Port))
                .Where(static port => port.Length > 0).DistinctBy(PortNames.Key),
        ];
        string[] unprinted = [.. used.Where(port => label.FindOutput(port) is null)];
        string[] unseen =
        [
            .. label.Outputs.Select(static output => output.Port)
                .Where(printed => printed != PortNames.Unnamed && !used.Any(port => PortNames.Same(port, printed))),
        ];
        return unprinted.Take(Most).Select(port => (port, Printed: Likely(port, unprinted, unseen))).Where(static one => one.Printed is not null)
            .Select(static one => Phrase.Of(
                $"Is {one.port} the port that the label calls {one.Printed}? Then say so under \"ports:\", as {one.Printed}: {{also: [{one.port}]}}."));
    }

    /// <summary>One question for each port that a further label seems to name otherwise than the first one does.</summary>
    public static IEnumerable<Phrase> Between(string firstName, Label? first, IReadOnlyList<(string Name, Label Label)> further)
    {
        foreach ((string name, Label label) in first is null ? [] : further)
        {
            string[] own = NamesOf(first!, label);
            string[] others = NamesOf(label, first!);
            foreach (string port in others.Take(Most))
            {
                if (Likely(port, others, own) is { } printed)
                {
                    yield return Phrase.Of(
                        $"Is {port} of {name} the port that {firstName} calls {printed}? Then say so under \"ports:\", as {printed}: {{also: [{port}]}}.");
                }
            }
        }
    }

    // Ports that one label names and the other does not.
    private static string[] NamesOf(Label label, Label other) =>
        [.. label.Outputs.Select(static output => output.Port).Where(port => port != PortNames.Unnamed && !other.Names(port))];

    private static string? Likely(string port, string[] unprinted, string[] unseen) =>
        unprinted.Length == 1 && unseen.Length == 1 ? unseen[0] : NearestName.Of(PortNames.Shorten(port), unseen);
}
