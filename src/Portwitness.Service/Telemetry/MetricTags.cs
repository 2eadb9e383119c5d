using Portwitness.Analysis.Evidence;
using Portwitness.Product.Catalogue;

namespace Portwitness.Service.Telemetry;

/// <summary>Values of tags. All come from closed lists of this program: nothing that a client says becomes one.</summary>
internal static class MetricTags
{
    /// <summary>A rule of the catalogue; "other" for any other text, which would make a row of its own.</summary>
    public static string Rule(string name) => RuleCatalogue.Names.Contains(name) ? name : "other";

    public static string Of(Severity severity) => severity switch
    {
        Severity.Violation => "violation",
        Severity.Mismatch => "mismatch",
        Severity.Caution => "caution",
        _ => "note",
    };

    public static string Of(Verdict verdict) => verdict switch
    {
        Verdict.Holds => "holds",
        Verdict.Fails => "fails",
        _ => "cannot-tell",
    };

    public static string Of(RejectionReason reason) => reason switch
    {
        RejectionReason.Size => "size",
        RejectionReason.Rate => "rate",
        RejectionReason.Streams => "streams",
        RejectionReason.Token => "token",
        RejectionReason.Queue => "queue",
        _ => "invalid",
    };
}
