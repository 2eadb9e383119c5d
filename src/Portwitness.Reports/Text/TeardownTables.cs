using Portwitness.Contracts.V1;

namespace Portwitness.Reports.Text;

/// <summary>The ledger of a teardown, and the functions that it does or does not account for.</summary>
internal static class TeardownTables
{
    /// <summary>The headings of the tables.</summary>
    public const string LedgerTitle = "Teardown", ChecksTitle = "Functions that the teardown accounts for";

    /// <summary>Both tables.</summary>
    public static void Write(TextWriter writer, ProductReport report, TextStyle style)
    {
        if (report.Teardown.Count > 0)
        {
            writer.WriteLine();
            writer.WriteLine(style.Heading(LedgerTitle));
            Ledger(report).Write(writer, "  ");
        }

        if (report.TeardownChecks.Count > 0)
        {
            writer.WriteLine();
            writer.WriteLine(style.Heading(ChecksTitle));
            Checks(report).Write(writer, "  ");
        }
    }

    /// <summary>A row a line, those of one board and side together.</summary>
    public static TextTable Ledger(ProductReport report)
    {
        TextTable table = new();
        table.Add("board", "side", "ref", "function", "marking", "maker", "package", "count", "ratings", "identified", "photo", "source");
        foreach (TeardownEntry entry in report.Teardown.GroupBy(static entry => (entry.Board, entry.Side)).SelectMany(static group => group))
        {
            table.Add(
                entry.Board, entry.Side, entry.Ref, entry.Function, entry.Marking, entry.Maker, entry.Package, entry.Count > 1 ? Amounts.Number(entry.Count) : "",
                entry.Ratings, entry.Identified == "inferred" ? "only inferred (?)" : entry.Identified, entry.Photo, entry.Source);
        }

        return table;
    }

    /// <summary>A row a function.</summary>
    public static TextTable Checks(ProductReport report)
    {
        TextTable table = new();
        table.Add("function", "usual for", "usual", "found", "so");
        foreach (TeardownCheck check in report.TeardownChecks)
        {
            table.Add(
                check.Function, check.WantedFor, Amounts.Number(check.Wanted),
                check.Inferred > 0 ? $"{Amounts.Number(check.Found)}, {Amounts.Number(check.Inferred)} only inferred" : Amounts.Number(check.Found), check.State);
        }

        return table;
    }
}
