using System.Globalization;
using Portwitness.Contracts.V1;

namespace Portwitness.Reports.Text;

/// <summary>One capability list: a line about the message, then its objects.</summary>
internal static class AdvertisementText
{
    public static void Write(TextWriter writer, Advertisement advertisement, string indent, TextStyle style)
    {
        writer.WriteLine(indent + string.Join("  ", About(advertisement, style)));
        Objects(advertisement).Write(writer, indent + "  ");
    }

    /// <summary>When it came, its name, message, repeats and PDP.</summary>
    public static List<string> About(Advertisement advertisement, TextStyle style)
    {
        List<string> parts =
        [
            Amounts.Seconds(advertisement.TimeUs),
            style.Heading(VisibleText.Of(advertisement.Message)),
            string.Create(CultureInfo.InvariantCulture, $"message {advertisement.MessageIndex}"),
        ];
        if (advertisement.Repeats > 0)
        {
            parts.Add($"repeated {Amounts.Count(advertisement.Repeats, "time", "times")}");
        }

        if (advertisement.HasPdpMw)
        {
            parts.Add($"PDP {Amounts.Watts(advertisement.PdpMw)}, {VisibleText.Of(advertisement.PdpBasis)}");
        }

        return parts;
    }

    /// <summary>Its objects, a row each, as <see cref="PowerObjectRow"/> has them.</summary>
    public static TextTable Objects(Advertisement advertisement)
    {
        TextTable objects = new();
        foreach (PowerObject offered in advertisement.Objects)
        {
            objects.Add(PowerObjectRow.Of(offered));
        }

        return objects;
    }
}
