using Portwitness.Contracts.V1;

namespace Portwitness.Reports;

/// <summary>Verdicts as the contract and its JSON spell them.</summary>
internal static class Words
{
    /// <summary>"holds", "fails" or "cannot_tell"; empty when there is none.</summary>
    public static string Of(Verdict verdict) => verdict switch
    {
        Verdict.Holds => "holds",
        Verdict.Fails => "fails",
        Verdict.CannotTell => "cannot_tell",
        _ => "",
    };
}
