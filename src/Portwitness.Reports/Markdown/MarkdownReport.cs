using Google.Protobuf.Collections;
using Portwitness.Contracts.V1;
using Portwitness.Reports.Text;

namespace Portwitness.Reports.Markdown;

/// <summary>Products' reports as GitHub-flavoured Markdown: the verdict first.</summary>
public static class MarkdownReport
{
    /// <summary>Writes the reports, one below the other.</summary>
    public static void Write(TextWriter writer, ReportSet set)
    {
        foreach (ReportedProduct product in set.Products)
        {
            WriteOne(writer, product.Read());
        }
    }

    private static void WriteOne(TextWriter writer, ProductReport report)
    {
        writer.WriteLine($"# {MarkdownText.Of(report.Product)}");
        writer.WriteLine();
        writer.WriteLine(report.Unusable
            ? "**Verdict: CANNOT TELL**, as nothing could be judged."
            : $"**Verdict: {ProductText.Word(report.Verdict)}**{(report.VerdictBasis.Length > 0 ? " " : "")}{MarkdownText.Line(report.VerdictBasis)}. "
                + $"Findings: {ProductText.FindingSummary(report)}.");
        foreach (string sentence in RuleText.Selection(report.Rules))
        {
            WriteParagraph(writer, sentence);
        }

        MarkdownFindings.Write(writer, report.Findings);
        WriteStatements(writer, report.Statements, StatementText.Heading(report.Label?.ByHand == true, report.LabelName));
        WriteParagraph(writer, PhotoWords.Of(report.Label));
        foreach (FurtherLabel further in report.FurtherLabels)
        {
            WriteStatements(writer, further.Statements, StatementText.Heading(byHand: false, further.Name));
        }

        MarkdownPorts.WriteTogether(writer, report);
        MarkdownPorts.WriteOffers(writer, report);
        WriteEnergy(writer, report);
        WriteDevices(writer, report.Devices);
        WriteList(writer, "Not read", report.Faults.Select(FaultListText.Of));
        WriteLabel(writer, report.Label, "");
        foreach (FurtherLabel further in report.FurtherLabels)
        {
            WriteLabel(writer, further.Label, $" ({further.Name})");
        }

        WriteList(writer, "Cautions", report.Cautions);
        WriteList(writer, "Next steps", report.NextSteps);
        writer.WriteLine();
        writer.WriteLine($"*Portwitness {ReportSet.ToolVersion}*");
    }

    internal static void WriteHeading(TextWriter writer, string heading)
    {
        writer.WriteLine();
        writer.WriteLine($"## {MarkdownText.Of(heading)}");
    }

    internal static void WriteParagraph(TextWriter writer, string text)
    {
        if (text.Length > 0)
        {
            writer.WriteLine();
            writer.WriteLine(MarkdownText.Line(text));
        }
    }

    internal static void WriteList(TextWriter writer, string heading, IEnumerable<string> items)
    {
        string[] all = [.. items];
        if (all.Length > 0)
        {
            WriteHeading(writer, heading);
            writer.WriteLine();
            WriteItems(writer, all);
        }
    }

    private static void WriteItems(TextWriter writer, IEnumerable<string> items)
    {
        foreach (string item in items)
        {
            writer.WriteLine($"- {MarkdownText.Line(item)}");
        }
    }

    private static void WriteStatements(TextWriter writer, RepeatedField<Statement> statements, string heading)
    {
        TextTable table = new();
        foreach (Statement statement in statements)
        {
            table.Add(
                ProductText.Word(statement.Verdict), statement.Claim, Amounts.Place(statement.LabelLine, statement.LabelColumn),
                statement.Evidence, statement.NextStep);
        }

        WriteSection(
            writer, heading,
            ["verdict", "statement", "printed at", "evidence", "next step"], table);
        WriteParagraph(writer, statements.Count > 0 ? StatementText.Counts(statements) : "");
    }

    private static void WriteEnergy(TextWriter writer, ProductReport report)
    {
        if (report.PowerLogs.Count > 0)
        {
            WriteSection(writer, "Measured energy", null, EnergyTables.Logs(report));
            writer.WriteLine();
            WriteItems(writer, EnergyTables.LogRemarks(report));
        }

        if (report.Adapter.Count > 0)
        {
            WriteSection(writer, "Mains supply", null, EnergyTables.Adapter(report));
        }

        if (report.Parts.Count > 0)
        {
            WriteSection(writer, "Parts of the board", null, EnergyTables.Parts(report));
        }

        if (report.Pack.Count > 0)
        {
            WriteSection(writer, PackTable.Title, null, PackTable.Of(report));
        }

        if (report.Controllers.Count > 0)
        {
            WriteSection(writer, "Port controllers", null, EnergyTables.Controllers(report));
        }

        if (report.PowerLogs.Any(static log => log.Charging is not null))
        {
            WriteSection(writer, ChargeTable.Title, null, ChargeTable.Of(report));
            writer.WriteLine();
            WriteItems(writer, ChargeTable.Remarks(report));
        }

        if (report.LoadLines.Count + report.Cables.Count > 0)
        {
            WriteSection(writer, LoadLineTable.Title, null, LoadLineTable.Of(report));
        }

        if (report.Soaks.Count > 0)
        {
            WriteSection(writer, SoakTable.Title, null, SoakTable.Of(report));
            writer.WriteLine();
            WriteItems(writer, SoakTable.Remarks(report));
        }

        if (report.Decisions.Count > 0)
        {
            WriteSection(writer, DecisionTable.Title, null, DecisionTable.Of(report));
            WriteParagraph(writer, DecisionTable.Rule(report));
        }

        if (report.Claims.Count > 0)
        {
            WriteSection(writer, ClaimTable.Title, null, ClaimTable.Of(report));
        }

        if (report.Teardown.Count > 0)
        {
            WriteSection(writer, TeardownTables.LedgerTitle, null, TeardownTables.Ledger(report));
        }

        if (report.TeardownChecks.Count > 0)
        {
            WriteSection(writer, TeardownTables.ChecksTitle, null, TeardownTables.Checks(report));
        }

        if (report.PassThrough.Count > 0)
        {
            WriteSection(writer, HandlingTables.PassThroughTitle, null, HandlingTables.PassThrough(report));
        }

        WriteList(writer, HandlingTables.OpeningTitle, report.Opening);
        if (report.Travel is { } card)
        {
            WriteSection(writer, HandlingTables.TravelTitle(card), null, HandlingTables.Rules(card));
            writer.WriteLine();
            WriteItems(writer, HandlingTables.Remarks(card));
        }

        WriteList(writer, HandlingTables.HandlingTitle(report), report.Handling);
    }

    private static void WriteDevices(TextWriter writer, DeviceMatrix? matrix)
    {
        if (matrix is { Rows.Count: > 0 })
        {
            List<string[]> columns = DeviceMatrixText.Columns(matrix);
            WriteSection(writer, "What described devices would get", null, DeviceMatrixText.Block(matrix, columns));
            WriteParagraph(writer, DeviceMatrixText.Legend(matrix, columns));
        }
    }

    private static void WriteLabel(TextWriter writer, Label? label, string of)
    {
        if (label is not null)
        {
            WriteSection(writer, $"Label text not read{of}", ["place", "text"], LabelText.Unread(label));
            WriteParagraph(writer, LabelText.Rest(label.UnlistedUnread));
            WriteSection(writer, $"Read differently than printed{of}", ["place", "printed", "", "read as", "why"], LabelText.Repairs(label));
            WriteParagraph(writer, LabelText.Rest(label.UnlistedRepairs));
            WriteSection(writer, LabelText.SettleHeading + of, ["place", "printed", "lines to choose from"], LabelText.ToSettle(label));
        }
    }

    private static void WriteSection(TextWriter writer, string heading, string[]? columns, TextTable table)
    {
        if (table.Rows.Count > 0)
        {
            WriteHeading(writer, heading);
            MarkdownTable.Write(writer, columns, table);
        }
    }
}
