using Portwitness.Contracts.V1;

namespace Portwitness.Reports.Text;

/// <summary>One product's report for people: the verdict first, the cautions last.</summary>
public static class ProductText
{
    private const int MaxPeriodsListed = 3;

    /// <summary>Whole reports, one below the other.</summary>
    public static void Write(TextWriter writer, ReportSet set)
    {
        foreach (ReportedProduct product in set.Products)
        {
            Write(writer, product.Read(), set.Style);
        }
    }

    /// <summary>The whole report.</summary>
    public static void Write(TextWriter writer, ProductReport report, TextStyle style)
    {
        writer.WriteLine(style.Heading(VisibleText.Of(report.Product)));
        writer.WriteLine($"Verdict: {WithBasis(style.Verdict(report.Verdict), report)}");
        RuleText.WriteSelection(writer, report.Rules, style);
        FindingText.Write(writer, report.Findings, style);
        StatementText.Write(writer, report.Statements, StatementText.Heading(report.Label?.ByHand == true, report.LabelName), style);
        if (report.Label?.Photo is not null)
        {
            Paragraph.WriteWrapped(writer, style, "  ", "  ", PhotoWords.Of(report.Label));
        }

        foreach (FurtherLabel further in report.FurtherLabels)
        {
            StatementText.Write(writer, further.Statements, StatementText.Heading(byHand: false, further.Name), style);
        }

        ArrangementText.Write(writer, report, style);
        SignallingText.Write(writer, report, style);
        EnergyTables.Write(writer, report, style);
        ChargeTable.Write(writer, report, style);
        LoadLineTable.Write(writer, report, style);
        SoakTable.Write(writer, report, style);
        DecisionTable.Write(writer, report, style);
        ClaimTable.Write(writer, report, style);
        TeardownTables.Write(writer, report, style);
        HandlingTables.Write(writer, report, style);
        foreach (PortReport port in report.Ports)
        {
            WritePort(writer, port, style);
        }

        DeviceMatrixText.Write(writer, report.Devices, style);
        FaultListText.Write(writer, report.Faults, style);
        if (report.Label is { Unread.Count: > 0 } label)
        {
            LabelText.WriteUnread(writer, label, style);
        }

        if (report.Label is { } read)
        {
            LabelText.WriteRepairs(writer, read, style);
            LabelText.WriteOpenPlaces(writer, read, style);
        }

        foreach (FurtherLabel further in report.FurtherLabels.Where(static further => further.Label.Unread.Count > 0))
        {
            LabelText.WriteUnread(writer, further.Label, style, further.Name);
        }

        NextStepText.Write(writer, report.NextSteps, style);
        NextStepText.WriteList(writer, "Cautions", report.Cautions, style);
    }

    /// <summary>"HOLDS", "FAILS" or "CANNOT TELL".</summary>
    public static string Word(Verdict verdict) => TextStyle.Plain.Verdict(verdict);

    /// <summary>The verdict with what it rests on: "HOLDS to the standard; no label to compare".</summary>
    public static string Verdict(ProductReport report) => WithBasis(Word(report.Verdict), report);

    /// <summary>"2 mismatches, 1 caution", or "none".</summary>
    public static string FindingSummary(ProductReport report) => FindingText.Summary(report.Findings);

    internal static string PortHeading(PortReport port) => port.Port.Length > 0 ? $"Port {port.Port} offered" : "A port without a name offered";

    /// <summary>"in use C1 + C2; c1.capture.jsonl; edition R3.2"; with its times where it is one piece of several of its capture.</summary>
    internal static string About(PortReport port, ArrangementReport arrangement)
    {
        List<string> about = [arrangement.InUse.Count > 0 ? $"in use {string.Join(" + ", arrangement.InUse)}" : "ports in use not stated"];
        about.Add(arrangement.File);
        about.Add($"edition {arrangement.Edition}");
        if (arrangement.Cable.Length > 0)
        {
            about.Add($"cable {arrangement.Cable}");
        }

        if (port.Arrangements.Count(one => one.File == arrangement.File) > 1)
        {
            about.AddRange(arrangement.Periods.Take(MaxPeriodsListed).Select(Period));
            about.AddRange(arrangement.Periods.Count > MaxPeriodsListed
                ? [$"and {Amounts.Count(arrangement.Periods.Count - MaxPeriodsListed, "more time", "more times")}"] : []);
        }

        return string.Join("; ", about);
    }

    private static string WithBasis(string verdict, ProductReport report) =>
        report.VerdictBasis.Length > 0 ? $"{verdict} {VisibleText.Of(report.VerdictBasis)}" : verdict;

    private static string Period(OfferPeriod period) =>
        $"from {Amounts.Seconds(period.FromUs)}{(period.BeganWith.Length > 0 ? $" ({BeganWith(period)})" : "")} "
        + $"for {Amounts.Duration(Math.Max(0, period.UntilUs - period.FromUs))}";

    private static string BeganWith(OfferPeriod period) => period.After.Length > 0 ? $"{period.BeganWith}, {period.After}" : period.BeganWith;

    private static void WritePort(TextWriter writer, PortReport port, TextStyle style)
    {
        writer.WriteLine();
        writer.WriteLine(style.Heading(VisibleText.Of(PortHeading(port))));
        foreach (ArrangementReport arrangement in port.Arrangements)
        {
            Paragraph.WriteWrapped(writer, style, "  ", "    ", About(port, arrangement));
            if (arrangement.Offered is { } offered)
            {
                AdvertisementText.Write(writer, offered, "    ", style);
            }
            else
            {
                writer.WriteLine("    no capability list was seen");
            }

            if (arrangement.Contracts.Count > 0)
            {
                ContractTable.Write(writer, arrangement.Contracts, "      ");
            }
        }
    }
}
