using System.Globalization;
using Portwitness.Contracts.V1;

namespace Portwitness.Reports.Text;

/// <summary>Load effect and output resistance of ports, and the resistance of cables.</summary>
internal static class LoadLineTable
{
    public const string Title = "How steady under load";

    public static void Write(TextWriter writer, ProductReport report, TextStyle style)
    {
        if (report.LoadLines.Count + report.Cables.Count == 0)
        {
            return;
        }

        writer.WriteLine();
        writer.WriteLine(style.Heading(Title));
        Of(report).Write(writer, "  ");
    }

    /// <summary>A row for each port and voltage, and for each cable.</summary>
    public static TextTable Of(ProductReport report)
    {
        TextTable table = new();
        table.Add("of", "in use", "at", "from", "to", "load effect", "resistance", "U (k = 2)");
        foreach (LoadLine line in report.LoadLines)
        {
            table.Add(
                line.Port, string.Join('+', line.InUse), Amounts.Volts(line.AtMv), Point(line.LeastUv, line.LeastUa), Point(line.MostUv, line.MostUa),
                string.Create(CultureInfo.InvariantCulture, $"{line.EffectPpm / 10_000m:0.00} %"), Ohms(line.ResistanceUohm), Ohms(line.ExpandedUohm));
        }

        foreach (CableLoss cable in report.Cables)
        {
            table.Add($"cable at {cable.Port}", "", Amounts.Volts(cable.AtMv), "", "", $"by {cable.By}", Ohms(cable.ResistanceUohm), Ohms(cable.ExpandedUohm));
        }

        return table;
    }

    private static string Point(long microvolts, long microamperes) =>
        string.Create(CultureInfo.InvariantCulture, $"{microvolts / 1_000_000m:0.###} V {microamperes / 1_000_000m:0.###} A");

    private static string Ohms(long microohms) => string.Create(CultureInfo.InvariantCulture, $"{microohms / 1000m:0.#} mΩ");
}
