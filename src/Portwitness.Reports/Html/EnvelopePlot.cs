using System.Xml.Linq;
using Portwitness.Contracts.V1;
using Portwitness.Reports.Text;

namespace Portwitness.Reports.Html;

/// <summary>Volts against amperes: what is offered, the port's PD power, and what is printed.</summary>
internal static class EnvelopePlot
{
    private const int Height = 380;
    private const int CurvePoints = 60;

    /// <summary>Null when nothing of the list can be drawn.</summary>
    public static XElement? Of(Advertisement offered, PrintedOutput? printed, string name, string id)
    {
        OfferedPower power = OfferedPower.Of(offered);
        List<Envelope> areas = [.. offered.Objects.Select(one => Envelope.Of(one, power.Milliwatts)).OfType<Envelope>()];
        if (areas.Count == 0)
        {
            return null;
        }

        decimal volts = areas.Max(area => area.ToVolts);
        decimal amperes = areas.Max(area => area.MostAmperes);
        foreach (PrintedFixed mode in printed?.Fixed ?? [])
        {
            (volts, amperes) = (Math.Max(volts, mode.VoltageMv / 1000m), Math.Max(amperes, mode.CurrentMa / 1000m));
        }

        foreach (PrintedRange range in printed?.Ranges ?? [])
        {
            (volts, amperes) = (Math.Max(volts, range.MaxVoltageMv / 1000m), Math.Max(amperes, range.CurrentMa / 1000m));
        }

        Axes axes = new(52, 28, Figure.Width - 76, Height - 76, 0, Axes.Round(volts * 1.06m), Axes.Round(amperes * 1.12m));
        List<(string, string)> keys = [];
        List<XElement> parts = [axes.Grid("V", "A")];
        AddOffered(areas, axes, parts, keys);
        AddPower(power.Milliwatts, "pdp", "offered PD power", axes, parts, keys);
        if (printed is not { HasMaxPowerMw: true } || printed.MaxPowerMw != power.PdpMilliwatts)
        {
            AddPower(power.PdpMilliwatts, "known", $"PD power, {offered.PdpBasis}", axes, parts, keys);
        }

        AddPrinted(printed, axes, parts, keys);
        return Figure.Of(
            id, $"Power envelope of {name}", $"{areas.Count} supplies up to {Amounts.Volts((int)(volts * 1000))}. The table that follows has the numbers.", Height, keys.Distinct(), parts.ToArray());
    }

    private static void AddOffered(List<Envelope> areas, Axes axes, List<XElement> parts, List<(string, string)> keys)
    {
        foreach (Envelope area in areas.Where(area => area.IsArea))
        {
            parts.Add(Markup.Element("path", Markup.Class("area " + area.Kind), new XAttribute("d", Closed(area, axes))));
            parts.Add(Axes.Text("label", axes.X(area.ToVolts) - 4, axes.Y(0) - 6, "end", area.Name));
        }

        foreach (Envelope point in areas.Where(area => !area.IsArea))
        {
            decimal x = axes.X(point.ToVolts);
            decimal y = axes.Y(point.MostAmperes);
            parts.Add(Axes.Line("stem", x, y, x, axes.Y(0)));
            parts.Add(Markup.Element("circle", Markup.Class("fixed"), Axes.At("cx", x), Axes.At("cy", y), Axes.At("r", 5)));
            parts.Add(Axes.Text("label", x, y - 10, "middle", point.Name));
        }

        keys.AddRange(areas.Select(area => (area.IsArea ? "area " + area.Kind : "fixed", area.IsArea ? $"offered {area.Kind} supply" : "offered fixed supply")));
    }

    private static void AddPower(int? milliwatts, string kind, string name, Axes axes, List<XElement> parts, List<(string, string)> keys)
    {
        if (milliwatts is not > 0)
        {
            return;
        }

        decimal watts = milliwatts.Value / 1000m;
        decimal from = Math.Max(watts / axes.ToY, axes.ToX / 1000);
        if (from >= axes.ToX)
        {
            return;
        }

        IEnumerable<string> points = Enumerable.Range(0, CurvePoints + 1).Select(at => from + ((axes.ToX - from) * at / CurvePoints))
            .Select(volts => $"{Markup.Number(axes.X(volts))} {Markup.Number(axes.Y(watts / volts))}");
        parts.Add(Markup.Element("path", Markup.Class("curve " + kind), new XAttribute("d", "M" + string.Join("L", points))));
        keys.Add(("curve " + kind, $"{name}, {Amounts.Watts(milliwatts)}"));
    }

    private static void AddPrinted(PrintedOutput? printed, Axes axes, List<XElement> parts, List<(string, string)> keys)
    {
        foreach (PrintedRange range in printed?.Ranges ?? [])
        {
            parts.Add(axes.Box("claim", range.MinVoltageMv / 1000m, range.MaxVoltageMv / 1000m, 0, range.CurrentMa / 1000m));
            keys.Add(("claim", "printed range"));
        }

        foreach (PrintedFixed mode in printed?.Fixed ?? [])
        {
            (string x, string y) = (Markup.Number(axes.X(mode.VoltageMv / 1000m)), Markup.Number(axes.Y(mode.CurrentMa / 1000m)));
            parts.Add(Markup.Element("path", Markup.Class("printed"), new XAttribute("transform", $"translate({x} {y})"), new XAttribute("d", "M0 -9L9 0L0 9L-9 0Z")));
            keys.Add(("printed", "printed rating"));
        }

        AddPower(printed is { HasMaxPowerMw: true } ? printed.MaxPowerMw : null, "most", "printed maximum", axes, parts, keys);
    }

    private static string Closed(Envelope area, Axes axes) => "M" + string.Join(
        "L", area.Outline.Select(point => $"{Markup.Number(axes.X(point.Volts))} {Markup.Number(axes.Y(point.Amperes))}")
            .Prepend($"{Markup.Number(axes.X(area.FromVolts))} {Markup.Number(axes.Y(0))}")
            .Append($"{Markup.Number(axes.X(area.ToVolts))} {Markup.Number(axes.Y(0))}")) + "Z";
}
