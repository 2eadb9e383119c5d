using System.Globalization;
using Portwitness.Contracts.V1;

namespace Portwitness.Reports.Text;

/// <summary>Whether a lot is accepted.</summary>
public static class LotText
{
    /// <summary>The plan, the units, the decision and what decides it.</summary>
    public static void Write(TextWriter writer, LotDecision lot, TextStyle style)
    {
        writer.WriteLine(style.Heading(VisibleText.Of($"{(lot.Product.Length > 0 ? lot.Product : "Products without a name")}: a lot of {Amounts.Number(lot.Lot)}, AQL {lot.AqlPercent} %")));
        Line("plan", Plan(lot));
        Line("units", $"{Amounts.Count(lot.Holds + lot.Fails + lot.CannotTell, "unit", "units")} of {Amounts.Number(lot.Units)}: {Amounts.Number(lot.Holds)} hold, "
            + $"{Amounts.Number(lot.Fails)} fail, {Amounts.Number(lot.CannotTell)} cannot be told" + Spare(lot));
        Line("decision", lot.Verdict switch
        {
            Verdict.Holds => "accepted",
            Verdict.Fails => "rejected",
            _ => $"cannot tell. {lot.NextStep}",
        });
        Names("failing", lot.Failing, lot.Fails);
        Names("open", lot.Open, lot.CannotTell);
        foreach (QuantityAcceptance quantity in lot.ByVariables)
        {
            Line("measured", $"{quantity.Port} {quantity.About}: {(quantity.Verdict == Verdict.Holds ? "accepted" : quantity.Verdict == Verdict.Fails ? "rejected" : "cannot tell")} "
                + $"by variables, {Amounts.Number(quantity.Samples)} samples, if normally distributed");
        }

        if (lot.CodeLetter.Length > 0)
        {
            Line("risk", $"of lots in which {PerCent(lot.AcceptedOneInTenPpm)} fail this plan accepts one in ten; an AQL is meant for a series of lots");
        }

        void Line(string name, string text) => Paragraph.WriteWrapped(writer, style, $"  {name,-10}", "            ", VisibleText.Of(text));

        void Names(string name, IReadOnlyCollection<string> names, int count)
        {
            if (count > 0)
            {
                Line(name, string.Join(", ", names) + (count > names.Count ? $" and {Amounts.Number(count - names.Count)} more" : ""));
            }
        }
    }

    /// <summary>Millionths as per cent with one decimal, rounded up: the share is never larger than it says.</summary>
    public static string PerCent(int millionths) => ((millionths + 999) / 1000 / 10m).ToString("0.#", CultureInfo.InvariantCulture) + " %";

    private static string Plan(LotDecision lot) => lot.CodeLetter.Length == 0
        ? "the whole lot: the tables ask for as many units as it has"
        : $"code letter {lot.CodeLetter}: {Amounts.Number(lot.Units)} units, accepted with {Amounts.Number(lot.Accept)} failing, rejected with {Amounts.Number(lot.Reject)} "
            + "(single, normal, level II; the tables of MIL-STD-105E and ISO 2859-1 as others restate them)";

    private static string Spare(LotDecision lot) => lot.Checked <= lot.Units ? ""
        : $"; {Amounts.Number(lot.Checked - lot.Units)} more were checked and decide nothing";
}
