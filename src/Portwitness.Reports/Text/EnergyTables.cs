using System.Globalization;
using Portwitness.Contracts.V1;

namespace Portwitness.Reports.Text;

/// <summary>What logs of power add up to, how a mains supply does, and what parts are used at.</summary>
internal static class EnergyTables
{
    public static void Write(TextWriter writer, ProductReport report, TextStyle style)
    {
        if (report.PowerLogs.Count > 0)
        {
            Begin(writer, "Measured energy", style);
            Logs(report).Write(writer, "  ");
            foreach (string remark in LogRemarks(report))
            {
                Paragraph.WriteWrapped(writer, style, "  ", "    ", remark);
            }
        }

        if (report.Adapter.Count > 0)
        {
            Begin(writer, "Mains supply", style);
            Adapter(report).Write(writer, "  ");
        }

        if (report.Parts.Count > 0)
        {
            Begin(writer, "Parts of the board", style);
            Parts(report).Write(writer, "  ");
        }

        if (report.Pack.Count > 0)
        {
            Begin(writer, PackTable.Title, style);
            PackTable.Of(report).Write(writer, "  ");
        }

        if (report.Controllers.Count > 0)
        {
            Begin(writer, "Port controllers", style);
            Controllers(report).Write(writer, "  ");
        }
    }

    /// <summary>What each log adds up to.</summary>
    public static TextTable Logs(ProductReport report)
    {
        TextTable table = new();
        table.Add("log", "port", "at", "charge", "between", "energy", "between", "of the cells", "mean", "load on", "ended by");
        foreach (PowerLog log in report.PowerLogs)
        {
            table.Add(
                log.Kind == "charge" ? $"{log.File} (charge)" : log.File, log.Port, log.At,
                Amount(log.ChargeUah.Value, 1000, "mAh"), Between(log.ChargeUah, 1000),
                Amount(log.EnergyUwh.Value, 1_000_000, "Wh"), Between(log.EnergyUwh, 1_000_000),
                log.HasEfficiencyPpm ? Amount(log.EfficiencyPpm, 10_000, "%") : "",
                log.HasMeanUv ? $"{Amount(log.MeanUv, 1_000_000, "V")} {Amount(log.MeanUa, 1_000_000, "A")}" : "",
                log.LoadUs > 0 ? Hours(log.LoadUs) : "", log.End);
        }

        return table;
    }

    /// <summary>How each log was measured, a sentence each.</summary>
    public static IEnumerable<string> LogRemarks(ProductReport report)
    {
        foreach (PowerLog log in report.PowerLogs)
        {
            string gaps = log.Gaps + log.ClockStepsBack == 0 ? "" : string.Create(
                CultureInfo.InvariantCulture, $" {log.Gaps} gaps and {log.ClockStepsBack} steps back of the clock were not added up.");
            yield return $"{log.File}: meter {log.Meter}; a positive current runs {log.PositiveCurrent}.{gaps}";
        }
    }

    /// <summary>A mains supply at each of its output voltages.</summary>
    public static TextTable Adapter(ProductReport report)
    {
        TextTable table = new();
        table.Add("output", "mean of 25, 50, 75, 100 %", "without a load");
        foreach (AdapterResult run in report.Adapter)
        {
            table.Add(
                $"{Amounts.Volts(run.OutputMv)} {Amounts.Amperes(run.RatedMa)}",
                run.HasAverageEfficiencyPpm ? $"{Amount(run.AverageEfficiencyPpm, 10_000, "%")} ± {Amount(run.UncertaintyPpm, 10_000, "%")}" : "not measured",
                run.HasNoLoadMw ? Amount(run.NoLoadMw, 1000, "W") : "not measured");
        }

        return table;
    }

    /// <summary>Parts against what their nodes are offered.</summary>
    public static TextTable Parts(ProductReport report)
    {
        TextTable table = new();
        table.Add("part", "node", "rated", "highest voltage", "for a moment", "largest current", "known from");
        foreach (PartResult part in report.Parts)
        {
            table.Add(
                part.Part, part.Node,
                $"{(part.HasRatedMv ? Amounts.Volts(part.RatedMv) : "")} {(part.HasRatedMa ? Amounts.Amperes(part.RatedMa) : "")} {part.Rating}".Trim(),
                part.HasHighestMv ? Amounts.Volts(part.HighestMv) : "not captured",
                part.HasHighestMomentMv ? Amounts.Volts(part.HighestMomentMv) : "",
                part.HasLargestMa ? Amounts.Amperes(part.LargestMa) : "", part.NodeBasis);
        }

        return table;
    }

    /// <summary>Port controllers and the most that their ports offer.</summary>
    public static TextTable Controllers(ProductReport report)
    {
        TextTable table = new();
        table.Add("controller", "ports", "rated", "protocols", "largest offer");
        foreach (ControllerResult controller in report.Controllers)
        {
            table.Add(
                controller.Part, string.Join(", ", controller.Ports), controller.HasRatedMw ? Amounts.Watts(controller.RatedMw) : "",
                string.Join(", ", controller.Protocols), controller.HasLargestMw ? Amounts.Watts(controller.LargestMw) : "not captured");
        }

        return table;
    }

    private static void Begin(TextWriter writer, string heading, TextStyle style)
    {
        writer.WriteLine();
        writer.WriteLine(style.Heading(heading));
    }

    private static string Between(MeasuredAmount amount, decimal scale) =>
        $"{Number(amount.Least, scale)} to {(amount.HasMost ? Number(amount.Most, scale) : "?")}";

    private static string Amount(long value, decimal scale, string unit) => $"{Number(value, scale)} {unit}";

    private static string Number(long value, decimal scale) => (value / scale).ToString("0.##", CultureInfo.InvariantCulture);

    private static string Hours(long us) => string.Create(
        CultureInfo.InvariantCulture, $"{us / 3_600_000_000} h {us / 60_000_000 % 60} min");
}
