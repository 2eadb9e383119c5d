using System.Collections.Immutable;
using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Labels;

namespace Portwitness.Product.Comparison;

/// <summary>
/// Holds a line that can be read in several ways against the evidence in each of its readings: what fails in each fails, what holds in
/// each holds, and otherwise a person has to look what the line means.
/// </summary>
internal static class AmbiguousClaims
{
    /// <summary>The claim of such a line.</summary>
    /// <param name="either">The line.</param>
    /// <param name="judge">The claims of a reading.</param>
    public static Claim Of(AmbiguousCombination either, Func<PrintedCombination, IEnumerable<Claim>> judge)
    {
        ImmutableArray<LabelCorrection> settling = OpenPlaces.ReadingsOf(either);
        Reading[] readings = [.. either.Readings.Zip(settling, (reading, correction) => new Reading(correction, Worst(reading, [.. judge(reading)])))];
        Reading first = readings[0];
        bool isSettled = Array.TrueForAll(readings, reading => reading.Claim.Verdict == first.Claim.Verdict && first.Claim.Verdict != Verdict.CannotTell);
        Claim claim = (isSettled ? first.Claim : Array.Find(readings, static reading => reading.Claim.Verdict == Verdict.CannotTell)?.Claim ?? first.Claim) with
        {
            At = either.At,
            Text = $"\"{either.Text}\", which can be read in {readings.Length} ways",
            Evidence = Phrase.Join("; ", readings.Select(static reading => reading.Text)),
            Printed = $"\"{either.Text}\"",
            Position = null,
        };
        return isSettled ? claim : claim with { Verdict = Verdict.CannotTell, MayBeOtherProtocol = false, NextStep = NextStep(either, readings) };
    }

    /// <summary>Whether evidence has settled a line in each of its readings.</summary>
    public static bool IsSettled(IEnumerable<Claim> claims, Place at) =>
        claims.Any(claim => claim.At == at && claim.Combination is not null && claim.Verdict != Verdict.CannotTell);

    // A reading is kept when all that it says is.
    private static Claim Worst(PrintedCombination reading, Claim[] claims) => (Array.Find(claims, static claim => claim.Verdict == Verdict.Fails)
        ?? Array.Find(claims, static claim => claim.Verdict == Verdict.CannotTell) ?? claims[0]) with { Combination = reading };

    private static Phrase NextStep(AmbiguousCombination either, Reading[] readings)
    {
        Phrase evidence = readings.Select(static reading => reading.Claim).Where(static claim => claim.Verdict == Verdict.CannotTell)
            .Select(static claim => claim.NextStep).FirstOrDefault(Phrase.Empty);
        string choices = string.Join(" or ", readings.Select(static reading => reading.Settling.ToYaml()));
        Phrase look = $"Look on the product, or in its manual, what line {either.At.Line} of the label means, and write it under \"label_corrections:\": {choices}.";
        return evidence.IsEmpty ? look : $"{evidence} {look}";
    }

    private sealed record Reading(LabelCorrection Settling, Claim Claim)
    {
        public Phrase Text => Phrase.Of($"read as \"{Settling.ReadAs}\" it ") + Claim.Verdict switch
        {
            Verdict.Holds => Phrase.Of($"holds: {Claim.Evidence}"),
            Verdict.Fails => Phrase.Of($"fails: {Claim.Text}, and {Claim.Evidence}"),
            _ => $"cannot be told: {Claim.Evidence}",
        };
    }
}
