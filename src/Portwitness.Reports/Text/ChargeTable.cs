using System.Globalization;
using Portwitness.Contracts.V1;

namespace Portwitness.Reports.Text;

/// <summary>How charges went, and what of the energy comes out again.</summary>
internal static class ChargeTable
{
    public const string Title = "Charging";

    private static readonly int[] Marks = [50, 80, 99];

    public static void Write(TextWriter writer, ProductReport report, TextStyle style)
    {
        if (!report.PowerLogs.Any(static log => log.Charging is not null))
        {
            return;
        }

        writer.WriteLine();
        writer.WriteLine(style.Heading(Title));
        Of(report).Write(writer, "  ");
        foreach (string remark in Remarks(report))
        {
            Paragraph.WriteWrapped(writer, style, "  ", "  ", remark);
        }
    }

    /// <summary>A row for each charge.</summary>
    public static TextTable Of(ProductReport report)
    {
        TextTable table = new();
        table.Add(["log", "port", "at", "peak", "mean", "plateau until", .. Marks.Select(static mark => $"{Amounts.Number(mark)} % in after"), "ended after"]);
        foreach (PowerLog log in report.PowerLogs.Where(static log => log.Charging is not null))
        {
            ChargeCurve curve = log.Charging;
            table.Add(
            [
                log.File, log.Port, log.At, Watts(curve.PeakMw), Watts(curve.MeanMw), curve.HasConstantUntilUs ? Amounts.Duration(curve.ConstantUntilUs) : "",
                .. Marks.Select((_, mark) => mark < curve.AtMarksUs.Count ? Amounts.Duration(curve.AtMarksUs[mark]) : ""), curve.HasEndedAtUs ? Amounts.Duration(curve.EndedAtUs) : "not seen",
            ]);
        }

        return table;
    }

    /// <summary>The criterion, and the round trip.</summary>
    public static IEnumerable<string> Remarks(ProductReport report)
    {
        if (report.PowerLogs.Any(static log => log.Charging is not null))
        {
            yield return "Ended: below 5 % of the peak, or half a watt, for five minutes; per cent are of the energy that was taken (common practice, no standard).";
        }

        if (report.RoundTrip is { } trip)
        {
            yield return string.Create(
                CultureInfo.InvariantCulture,
                $"Round trip: {trip.Ppm / 10_000m:0.#} % ± {trip.ExpandedPpm / 10_000m:0.#} % (k = 2) of what {trip.ChargeFile} took came out in {trip.DischargeFile}, if both began and ended alike.");
        }
    }

    private static string Watts(long milliwatts) => string.Create(CultureInfo.InvariantCulture, $"{milliwatts / 1000m:0.##} W");
}
