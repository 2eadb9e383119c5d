using System.Globalization;
using Portwitness.Contracts.V1;

namespace Portwitness.Reports.Text;

/// <summary>Loads that were held: for how long, and how hot.</summary>
internal static class SoakTable
{
    public const string Title = "How long, and how hot";

    private static readonly int[] Minutes = [1, 5, 15, 30, 60];

    public static void Write(TextWriter writer, ProductReport report, TextStyle style)
    {
        if (report.Soaks.Count == 0)
        {
            return;
        }

        writer.WriteLine();
        writer.WriteLine(style.Heading(Title));
        Of(report).Write(writer, "  ");
        foreach (string remark in Remarks(report))
        {
            Paragraph.WriteWrapped(writer, style, "  ", "    ", remark);
        }
    }

    /// <summary>A row for each.</summary>
    public static TextTable Of(ProductReport report)
    {
        TextTable table = new();
        table.Add(["port", "at", "printed", "held for", .. Minutes.Select(static minute => $"{Amounts.Number(minute)} min"), "steady", "hottest", "over the room"]);
        foreach (SoakResult soak in report.Soaks)
        {
            table.Add(
            [
                soak.Port, soak.At, soak.HasPrintedMw ? Amounts.Watts(soak.PrintedMw) : "", Amounts.Duration(soak.ForUs),
                .. Minutes.Select((_, mark) => mark < soak.AtMarksMw.Count ? Watts(soak.AtMarksMw[mark]) : ""),
                soak.HasSteadyMw ? $"{Watts(soak.SteadyMw)}{(soak.PowerSteady ? "" : ", not steady")}" : "",
                soak.HasHottestMdegc ? Degrees(soak.HottestMdegc) : "", soak is { HasSurfaceMdegc: true, HasRoomMdegc: true } ? Kelvins(soak.SurfaceMdegc - soak.RoomMdegc) : "",
            ]);
        }

        return table;
    }

    /// <summary>How each one went, a sentence each.</summary>
    public static IEnumerable<string> Remarks(ProductReport report)
    {
        foreach (SoakResult soak in report.Soaks)
        {
            string held = $"{Amounts.WattHours(soak.EnergyUwh / 1000)} and {Amounts.Number(soak.ChargeUah / 1000)} mAh";
            string fell = soak.HasFellAtUs ? Amounts.Duration(soak.FellAtUs) : "";
            string how = soak.Fall switch
            {
                "voltage" => $"after {fell} and {held} the voltage fell",
                "current" => $"after {fell} the load drew less",
                "off" => $"after {fell} and {held} the output went off",
                _ => $"it held all the time, {held}",
            };
            string back = soak.HasRecoveredAtUs ? $"; back after {Amounts.Duration(soak.RecoveredAtUs)}" : "";
            string said = soak.Fall is "none" or "current" ? "" : soak.Announcement switch
            {
                "announced" => $"; announced by {soak.Said}",
                "silent" => "; the port said nothing",
                _ => "; whether the port said so nobody recorded",
            };
            string off = soak.TimesOff > 1 ? $"; {Amounts.Number(soak.TimesOff)} times off" : "";
            string surface = soak.HasSurfaceSteady ? $"; the surface was {(soak.SurfaceSteady ? "" : "not ")}steady (1 K in 15 min)" : "";
            yield return $"{soak.File}: {how}{back}{said}{off}{surface}.";
        }
    }

    private static string Watts(long milliwatts) => string.Create(CultureInfo.InvariantCulture, $"{milliwatts / 1000m:0.#} W");

    private static string Degrees(int millidegrees) => string.Create(CultureInfo.InvariantCulture, $"{millidegrees / 1000m:0.#} °C");

    private static string Kelvins(int millikelvins) => string.Create(CultureInfo.InvariantCulture, $"{millikelvins / 1000m:0.#} K");
}
