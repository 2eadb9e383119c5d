using Portwitness.Contracts.V1;
using Portwitness.Reports.Text;

namespace Portwitness.Reports.Comparing;

/// <summary>What a report says beyond label and offers: the ledger of a teardown, its functions, claims, and passing through.</summary>
internal static class OpenedFacts
{
    /// <summary>Whether it is of these: a report that has none of a subject says nothing of it.</summary>
    public static bool Has(FactKey key) => key.Subject is "claim" or "teardown" or "function" or "pass-through";

    /// <summary>The facts in the order of the report, with what is said of each.</summary>
    public static IEnumerable<(FactKey Key, string Value)> Of(ProductReport report)
    {
        foreach (JudgedClaim claim in report.Claims)
        {
            yield return (new FactKey("claim", claim.Port, "", claim.Source.Length > 0 ? $"{claim.Text} ({claim.Source})" : claim.Text), ProductText.Word(claim.Verdict));
        }

        foreach (TeardownEntry entry in report.Teardown)
        {
            yield return (new FactKey("teardown", "", "", NameOf(entry)), ValueOf(entry));
        }

        foreach (TeardownCheck check in report.TeardownChecks)
        {
            yield return (new FactKey("function", "", "", $"{check.Function} for {check.WantedFor}"), check.State);
        }

        foreach (PassThrough through in report.PassThrough)
        {
            foreach (OutputWithoutInput output in through.WithoutInput)
            {
                yield return (
                    new FactKey("pass-through", output.Port, "", $"{AboutOf(through)}, when the input leaves"),
                    output.GoesOn ? "goes on" : $"{Amounts.Volts(output.MeasuredMv)} {Amounts.Amperes(output.MeasuredMa)}");
            }
        }
    }

    /// <summary>What was measured while power passed through, in mW.</summary>
    public static IEnumerable<(QuantityKey Key, Quantity Quantity)> QuantitiesOf(ProductReport report)
    {
        foreach (PassThrough through in report.PassThrough)
        {
            (string What, bool IsThere, long Value)[] sides =
            [
                ("power in", through.HasInMw, through.InMw), ("power out", through.HasOutMw, through.OutMw), ("into the pack", through.HasIntoPackMw, through.IntoPackMw),
            ];
            foreach ((string what, _, long value) in sides.Where(static side => side.IsThere))
            {
                yield return (new QuantityKey("", "", $"{what}, {AboutOf(through)}", "mW"), new Quantity(value));
            }
        }
    }

    private static string AboutOf(PassThrough through) => $"{string.Join("+", through.Inputs)} in, {string.Join("+", through.Outputs)} out";

    // A part is known by its reference on its board.
    private static string NameOf(TeardownEntry entry)
    {
        string name = entry.Ref.Length > 0 ? entry.Ref : entry.Function;
        string where = $"{entry.Board} {entry.Side}".Trim();
        return where.Length > 0 ? $"{name} ({where})" : name;
    }

    private static string ValueOf(TeardownEntry entry) => string.Join(", ", new[]
    {
        entry.Function, entry.Marking, entry.Maker, entry.Package, entry.Count > 1 ? $"{Amounts.Number(entry.Count)} pieces" : "", entry.Ratings, entry.Identified,
    }.Where(static part => part.Length > 0));
}
