using Google.Protobuf.Collections;
using Portwitness.Contracts.V1;

namespace Portwitness.Reports.Text;

/// <summary>What devices would ask a source for, for people.</summary>
public static class NegotiationText
{
    /// <summary>The policy, the devices, then each offer with what each device makes of it.</summary>
    public static void Write(TextWriter writer, NegotiationReport report, TextStyle style)
    {
        writer.WriteLine(style.Heading(VisibleText.Of(report.Source)));
        Paragraph.WriteWrapped(
            writer, style, "  ", "    ", $"policy {report.Policy.Name}, an assumption that --policy changes: {report.Policy.Text}");
        writer.WriteLine();
        writer.WriteLine(style.Heading("Devices"));
        SinkText.Write(writer, report.Sinks, style);
        foreach (NegotiatedOffer offer in report.Offers)
        {
            WriteOffer(writer, offer, report.Sinks, style);
        }

        FaultListText.Write(writer, report.Faults, style);
        NextStepText.Write(
            writer, [.. report.Offers.SelectMany(static offer => offer.Negotiations).SelectMany(static one => one.NextSteps).Distinct()], style);
        NextStepText.WriteList(writer, "Cautions", report.Cautions, style);
    }

    /// <summary>"C1", "C1 of C1 + C2"; "?" for a port without a name.</summary>
    internal static string PortIn(string port, IReadOnlyCollection<string> inUse)
    {
        string name = port.Length > 0 ? port : Amounts.Unknown;
        return inUse.Count > 1 ? $"{name} of {string.Join("+", inUse)}" : name;
    }

    private static void WriteOffer(TextWriter writer, NegotiatedOffer offer, RepeatedField<Sink> sinks, TextStyle style)
    {
        writer.WriteLine();
        string at = offer.HasMessageIndex ? $", message {offer.MessageIndex}" : "";
        string name = offer.Port.Length == 0 && offer.InUse.Count < 2 ? "A port without a name" : $"Port {PortIn(offer.Port, offer.InUse)}";
        writer.WriteLine(style.Heading(VisibleText.Of($"{name} offers{at}")));
        // The EPR list begins with the SPR objects.
        List<PowerObject> objects = [.. offer.EprObjects.Count > 0 ? offer.EprObjects : offer.Objects];
        TextTable table = new();
        foreach (PowerObject offered in objects)
        {
            table.Add(PowerObjectRow.Of(offered));
        }

        table.Write(writer, "  ");
        for (int index = 0; index < offer.Negotiations.Count && index < sinks.Count; index++)
        {
            writer.WriteLine();
            DeviceText.Write(writer, offer, offer.Negotiations[index], sinks[index], objects, style);
        }
    }
}
