using System.Globalization;
using Portwitness.Contracts.V1;

namespace Portwitness.Reports.Text;

/// <summary>The conversation, one line each: when, how long after the line before, who to whom, what, and what it means.</summary>
internal static class TimelineText
{
    public static void Write(TextWriter writer, IReadOnlyCollection<TimelineEntry> entries, string indent)
    {
        TextTable table = new();
        foreach (TimelineEntry entry in entries)
        {
            table.Add(
                Amounts.Seconds(entry.TimeUs),
                "+" + Gap(entry.GapUs),
                entry.Kind == "message" ? entry.HasMessageIndex ? $"#{entry.MessageIndex}" : "" : entry.Kind,
                entry.Direction,
                entry.Sop,
                entry.Name,
                string.Join("; ", Remarks(entry)));
        }

        table.Write(writer, indent);
    }

    private static IEnumerable<string> Remarks(TimelineEntry entry)
    {
        if (entry.Meaning.Length > 0)
        {
            yield return entry.Meaning;
        }

        if (entry is { HasAcknowledged: true, Acknowledged: false })
        {
            yield return "no GoodCRC seen";
        }

        if (entry.Retries > 0)
        {
            yield return $"sent again {Times(entry.Retries)}";
        }

        if (entry.Repeats > 0)
        {
            yield return $"repeated {Times(entry.Repeats)}, last at {Amounts.Seconds(entry.LastUs)}";
        }
    }

    private static string Times(long count) => Amounts.Count(count, "time", "times");

    private static string Gap(long microseconds) => microseconds < 1_000_000
        ? string.Create(CultureInfo.InvariantCulture, $"{microseconds / 1000m:0.000} ms")
        : string.Create(CultureInfo.InvariantCulture, $"{microseconds / 1_000_000m:0.000} s");
}
