using Portwitness.Contracts.V1;

namespace Portwitness.Reports.Text;

/// <summary>Descriptions of devices, and policies, for people.</summary>
public static class SinkText
{
    /// <summary>The devices that come with the tool, in the words that --sink takes, and the policies.</summary>
    public static void WriteList(TextWriter writer, ListSinksResponse list, TextStyle style)
    {
        writer.WriteLine(style.Heading("Devices") + " (--sink NAME; invented from the standard's classes of power, they describe no product)");
        Write(writer, list.Sinks, style);
        writer.WriteLine();
        writer.WriteLine(style.Heading("Policies") + " (--policy NAME; the first is the default)");
        TextTable table = new();
        foreach (SinkPolicy policy in list.Policies)
        {
            table.Add(policy.Name, policy.Text);
        }

        table.Write(writer, "  ");
    }

    internal static void Write(TextWriter writer, IEnumerable<Sink> sinks, TextStyle style)
    {
        foreach (Sink sink in sinks)
        {
            Paragraph.WriteWrapped(writer, style, "  ", "    ", sink.Title.Length > 0 ? $"{sink.Name}: {sink.Title}" : sink.Name);
            Paragraph.WriteWrapped(writer, style, "    ", "    ", sink.Words);
        }
    }
}
