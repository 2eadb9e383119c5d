using System.Globalization;
using Portwitness.Contracts.V1;

namespace Portwitness.Reports.Text;

/// <summary>A power pack by weight, ruler and arithmetic.</summary>
internal static class PackTable
{
    private const string Minutes = "min";
    private const string Fills = "tenths of a fill";

    /// <summary>The heading of the table.</summary>
    public const string Title = "The pack by weight, ruler and arithmetic";

    /// <summary>A row a figure.</summary>
    public static TextTable Of(ProductReport report)
    {
        TextTable table = new();
        table.Add("figure", "value", "reckoned from");
        foreach (PackFigure figure in report.Pack)
        {
            table.Add(figure.About, Value(figure), figure.Basis);
        }

        return table;
    }

    /// <summary>A figure with its unit.</summary>
    public static string Value(PackFigure figure) => figure.HasMost ? Between(figure) : $"{Amount(figure.Value, figure.Unit)}{UnitOf(figure.Unit)}";

    private static string Between(PackFigure figure) => $"{Amount(figure.Value, figure.Unit)} to {Amount(figure.Most, figure.Unit)}{UnitOf(figure.Unit)}";

    private static string Amount(long value, string unit) => unit switch
    {
        "mA" => Decimal(value / 1000m),
        Minutes => string.Create(CultureInfo.InvariantCulture, $"{value / 60} h {value % 60:00} min"),
        Fills => Decimal(value / 10m),
        _ => Decimal(value),
    };

    private static string UnitOf(string unit) => unit switch
    {
        "mA" => " A",
        Minutes => "",
        Fills => " times",
        _ => $" {unit}",
    };

    private static string Decimal(decimal value) => value.ToString("0.##", CultureInfo.InvariantCulture);
}
