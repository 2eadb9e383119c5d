using Portwitness.Analysis.Phrases;
using Portwitness.Product;
using Portwitness.Product.Claims;

using Wire = Portwitness.Contracts.V1;

namespace Portwitness.Service.Translation;

/// <summary>What a box or a page says beyond the label.</summary>
internal static class ClaimTranslation
{
    public static void AddClaims(this Wire.ProductReport report, ProductAnalysis analysis) => report.Claims.AddRange(analysis.Claims.Select(ToContract));

    private static Wire.JudgedClaim ToContract(JudgedClaim judged) => new()
    {
        Text = judged.Claim.Text,
        Source = judged.Claim.Source,
        Kind = judged.Claim.Kind switch
        {
            ClaimKind.Time => "time",
            ClaimKind.Fills => "fills",
            ClaimKind.Mass => "mass",
            ClaimKind.Size => "size",
            _ => "power",
        },
        Port = judged.Claim.Port,
        Verdict = ((Analysis.Evidence.Verdict?)judged.Verdict).ToContract(),
        Evidence = PhraseText.Of(judged.Evidence),
        NextStep = PhraseText.Of(judged.NextStep),
    };
}
