using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;

namespace Portwitness.Product.Claims;

/// <summary>A claim and whether the evidence bears it out.</summary>
/// <param name="Claim">The claim.</param>
/// <param name="Verdict">Holds, fails, or cannot tell.</param>
/// <param name="Evidence">What was reckoned or measured, or what is missing.</param>
/// <param name="NextStep">What to do when it cannot be told; otherwise empty.</param>
public sealed record JudgedClaim(ProductClaim Claim, Verdict Verdict, Phrase Evidence, Phrase NextStep)
{
    /// <summary>Line of the label that the evidence rests on; null for none.</summary>
    public int? LabelLine { get; init; }

    /// <summary>What would be possible; empty where nothing is reckoned.</summary>
    public Phrase Possible { get; init; } = Phrase.Empty;
}
