using System.Globalization;
using Portwitness.Contracts.V1;

namespace Portwitness.Reports.Text;

/// <summary>One capability list: a line about the message, then its objects.</summary>
internal static class AdvertisementText
{
    public static void Write(TextWriter writer, Advertisement advertisement, string indent, TextStyle style)
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

        writer.WriteLine(indent + string.Join("  ", parts));
        TextTable objects = new();
        foreach (PowerObject offered in advertisement.Objects)
        {
            objects.Add(PowerObjectRow.Of(offered));
        }

        objects.Write(writer, indent + "  ");
    }
}
