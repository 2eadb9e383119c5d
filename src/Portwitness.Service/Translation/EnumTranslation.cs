using Portwitness.Analysis.Evidence;
using Portwitness.Following.Contracts;
using Wire = Portwitness.Contracts.V1;

namespace Portwitness.Service.Translation;

/// <summary>Words of the analysis in the words of the contract.</summary>
internal static class EnumTranslation
{
    public static Wire.Severity ToContract(this Severity severity) => severity switch
    {
        Severity.Violation => Wire.Severity.Violation,
        Severity.Mismatch => Wire.Severity.Mismatch,
        Severity.Caution => Wire.Severity.Caution,
        Severity.Note => Wire.Severity.Note,
        _ => Wire.Severity.Unspecified,
    };

    public static Wire.Verdict ToContract(this Verdict? verdict) => verdict switch
    {
        Verdict.Holds => Wire.Verdict.Holds,
        Verdict.Fails => Wire.Verdict.Fails,
        Verdict.CannotTell => Wire.Verdict.CannotTell,
        _ => Wire.Verdict.Unspecified,
    };

    public static string ToContract(this ContractOutcome outcome) => outcome switch
    {
        ContractOutcome.Ready => "ready",
        ContractOutcome.Accepted => "accepted",
        ContractOutcome.Rejected => "rejected",
        ContractOutcome.Wait => "wait",
        ContractOutcome.Reset => "reset",
        _ => "unanswered",
    };

    public static string ToContract(this ContractEnd end) => end switch
    {
        ContractEnd.Replaced => "replaced",
        ContractEnd.HardReset => "hard reset",
        ContractEnd.Detached => "detached",
        _ => "",
    };
}
