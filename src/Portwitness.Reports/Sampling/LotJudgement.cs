using System.Globalization;
using Portwitness.Contracts.V1;

namespace Portwitness.Reports.Sampling;

/// <summary>Whether a lot is accepted by the units of it that were checked, in the order in which they were drawn.</summary>
/// <param name="lot">Units of the lot.</param>
/// <param name="limit">Its acceptance quality limit, one of <see cref="LotPlan.Limits"/> by its place.</param>
public sealed class LotJudgement(int lot, int limit)
{
    private const int MaxNames = 20;

    private readonly LotPlan _plan = LotPlan.For(lot, limit);

    /// <summary>Judges the first units that the plan asks for; more than it asks for decide nothing.</summary>
    /// <param name="product">The product.</param>
    /// <param name="units">Name and verdict of each; one that could not be read cannot be told.</param>
    public LotDecision Judge(string product, IReadOnlyList<(string Name, Verdict Verdict)> units)
    {
        (string Name, Verdict Verdict)[] drawn = [.. units.Take(_plan.Units)];
        string[] failing = [.. drawn.Where(static unit => unit.Verdict == Verdict.Fails).Select(static unit => unit.Name)];
        string[] open = [.. drawn.Where(static unit => unit.Verdict is not (Verdict.Fails or Verdict.Holds)).Select(static unit => unit.Name)];
        int missing = _plan.Units - drawn.Length;
        LotDecision decision = new()
        {
            Product = product, Lot = lot, AqlPercent = LotPlan.Limits[limit], CodeLetter = _plan.IsWhole ? "" : _plan.Letter.ToString(),
            Units = _plan.Units, Accept = _plan.Accept, Reject = _plan.Reject, Checked = units.Count, Holds = drawn.Length - failing.Length - open.Length,
            Fails = failing.Length, CannotTell = open.Length, Failing = { failing.Take(MaxNames) }, Open = { open.Take(MaxNames) },
            Verdict = failing.Length >= _plan.Reject ? Verdict.Fails : failing.Length + open.Length + missing <= _plan.Accept ? Verdict.Holds : Verdict.CannotTell,
            AcceptedOneInTenPpm = _plan.IsWhole ? 0 : (int)Math.Round(FailingShare.ShareAccepted(_plan.Units, _plan.Accept, 0.1) * 1_000_000),
        };

        // A plan is read as drawn whole: with fewer units it accepts nothing, though those that are missing might be let through.
        if (missing > 0 && decision.Verdict == Verdict.Holds)
        {
            decision.Verdict = Verdict.CannotTell;
        }

        decision.NextStep = decision.Verdict != Verdict.CannotTell ? "" : string.Join(
            ' ', new[]
            {
                missing > 0 ? string.Create(CultureInfo.InvariantCulture, $"Draw and check {missing} more {(missing == 1 ? "unit" : "units")}.") : "",
                open.Length > 0 ? $"Settle {string.Join(", ", open.Take(MaxNames))}{(open.Length > MaxNames ? " and others" : "")}." : "",
            }.Where(static step => step.Length > 0));
        return decision;
    }
}
