using System.Globalization;
using Portwitness.Contracts.V1;

namespace Portwitness.Reports.Text;

/// <summary>Several samples of one product.</summary>
public static class SpreadText
{
    private const int MaxShown = 40;

    /// <summary>What they do not have in common, and how far measured values are apart.</summary>
    public static void Write(TextWriter writer, SampleSpread spread, TextStyle style)
    {
        string firmware = spread.Firmware.Length > 0 ? $", firmware {spread.Firmware}" : "";
        writer.WriteLine(style.Heading(VisibleText.Of($"{spread.Product}{firmware}: {Amounts.Count(spread.Samples, "sample", "samples")}")));
        writer.WriteLine($"  {FailingText(spread)}");
        writer.WriteLine($"  the same in all: {Amounts.Count(spread.Common, "fact", "facts")}");
        if (spread.Differing.Count > 0)
        {
            Differing(spread).Write(writer, "  ");
        }

        long unlisted = spread.Unlisted + Math.Max(0, spread.Differing.Count - MaxShown);
        if (unlisted > 0)
        {
            writer.WriteLine($"  and {Amounts.Count(unlisted, "other", "others")}");
        }

        if (spread.Measured.Count > 0)
        {
            writer.WriteLine();
            Measured(spread).Write(writer, "  ");
        }
    }

    /// <summary>How many samples fail, and what that says of the others that there are.</summary>
    public static string FailingText(SampleSpread spread)
    {
        string open = spread.Open > 0 ? $", {Amounts.Number(spread.Open)} cannot be told" : "";
        long told = spread.Samples - spread.Open;
        string failing = $"{(spread.Failing == 0 ? "none" : Amounts.Number(spread.Failing))} of {Amounts.Number(told)} {(spread.Failing < 2 ? "fails" : "fail")}{open}";
        return told == 0 ? "no sample can be told" : spread.Failing == told ? failing
            : $"{failing}: of a lot that they were drawn from at random at most {LotText.PerCent(spread.FailingShareMostPpm)} fail (95 % confidence)";
    }

    /// <summary>A row for each value of what is not the same in all samples.</summary>
    public static TextTable Differing(SampleSpread spread)
    {
        TextTable table = new();
        table.Add("differs", "port", "in use", "about", "value", "samples");
        foreach (SpreadFact fact in spread.Differing.Take(MaxShown))
        {
            foreach (SpreadValue value in fact.Values)
            {
                string names = value.Names.Count == 0 ? "" : $": {string.Join(", ", value.Names)}{(value.Names.Count < value.Samples ? ", ..." : "")}";
                table.Add(
                    fact.Subject, fact.Port, string.Join("+", fact.InUse), fact.About, value.Value.Length > 0 ? value.Value : "none",
                    Amounts.Number(value.Samples) + names);
            }
        }

        return table;
    }

    /// <summary>A row for each quantity.</summary>
    public static TextTable Measured(SampleSpread spread)
    {
        TextTable table = new();
        table.Add("measured", "port", "in use", "n", "mean", "s", "least", "most", "unit", "95 % of all within", "Cpk", "outliers");
        foreach (SpreadQuantity quantity in spread.Measured)
        {
            table.Add(
                quantity.About, quantity.Port, string.Join("+", quantity.InUse), Amounts.Number(quantity.Samples), Thousandths(quantity.MeanThousandths),
                quantity.HasDeviationThousandths ? Thousandths(quantity.DeviationThousandths) : "-", Amounts.Number(quantity.Least), Amounts.Number(quantity.Most), quantity.Unit,
                quantity.HasToleranceLeastThousandths
                    ? $"{Thousandths(quantity.ToleranceLeastThousandths, 1)} to {Thousandths(quantity.ToleranceMostThousandths, 1)}" : "-",
                quantity.HasCpkThousandths ? $"{Thousandths(quantity.CpkThousandths)}, at least {Thousandths(quantity.CpkLeastThousandths)}" : "-",
                quantity.Samples < 5 ? "too few to tell" : quantity.Outliers.Count == 0 ? "none" : string.Join(", ", quantity.Outliers));
        }

        return table;
    }

    private static string Thousandths(long value, int decimals = 3) => Math.Round(value / 1000m, decimals).ToString("0.###", CultureInfo.InvariantCulture);
}
