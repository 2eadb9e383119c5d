namespace Portwitness.Analysis.Findings;

/// <summary>What was found in a capture that still grows.</summary>
/// <param name="Stays">What no later message can change.</param>
/// <param name="Provisional">What is wrong with capability lists by what has come yet; the same object as before when nothing of it has changed.</param>
/// <param name="Judgements">How often a list has been judged for that.</param>
public sealed record FoundSoFar(IReadOnlyList<Finding> Stays, IReadOnlyList<Finding> Provisional, long Judgements);
