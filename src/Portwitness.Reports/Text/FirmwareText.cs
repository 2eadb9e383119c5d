using Portwitness.Contracts.V1;

namespace Portwitness.Reports.Text;

/// <summary>Firmware versions of one product.</summary>
public static class FirmwareText
{
    private const int MaxShown = 40;

    /// <summary>What tells them apart.</summary>
    public static void Write(TextWriter writer, FirmwareSpread spread, TextStyle style)
    {
        string versions = string.Join(", ", spread.Versions.Select(static one => $"{Name(one.Firmware)} ({Amounts.Count(one.Samples, "sample", "samples")})"));
        writer.WriteLine(style.Heading(VisibleText.Of($"{spread.Product}: firmware {versions}")));
        if (spread.Differing.Count == 0)
        {
            writer.WriteLine("  nothing tells the versions apart");
            return;
        }

        Differing(spread).Write(writer, "  ");
        long unlisted = spread.Unlisted + Math.Max(0, spread.Differing.Count - MaxShown);
        if (unlisted > 0)
        {
            writer.WriteLine($"  and {Amounts.Count(unlisted, "other", "others")}");
        }
    }

    /// <summary>A row for each value.</summary>
    public static TextTable Differing(FirmwareSpread spread)
    {
        TextTable table = new();
        table.Add("by firmware", "port", "in use", "about", "firmware", "value", "samples");
        foreach (FirmwareFact fact in spread.Differing.Take(MaxShown))
        {
            foreach (FirmwareValue value in fact.Values)
            {
                table.Add(
                    fact.Subject, fact.Port, string.Join("+", fact.InUse), fact.About, Name(value.Firmware), value.Value.Length > 0 ? value.Value : "none",
                    Amounts.Number(value.Samples));
            }
        }

        return table;
    }

    private static string Name(string firmware) => firmware.Length > 0 ? firmware : "not stated";
}
