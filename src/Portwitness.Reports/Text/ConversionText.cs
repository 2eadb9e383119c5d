using System.Globalization;
using Portwitness.Contracts.V1;

namespace Portwitness.Reports.Text;

/// <summary>What a conversion read, wrote and left out.</summary>
public static class ConversionText
{
    private const int MaxMoved = 10;

    /// <summary>Writes it; a conversion that found no format has only its faults.</summary>
    public static void Write(TextWriter writer, Conversion conversion, string output)
    {
        if (conversion.From.Length > 0)
        {
            writer.WriteLine($"{VisibleText.Of(output)}: {conversion.To}, from {conversion.From}; {Counts(conversion.Written)}");
        }

        if (conversion.LeftOut.Count > 0)
        {
            writer.WriteLine($"Left out, because {conversion.To} has no place for them: {Counts(conversion.LeftOut)}");
        }

        WriteMoved(writer, conversion);
        if (conversion.From.Length == 0)
        {
            foreach (Fault fault in conversion.Faults)
            {
                writer.WriteLine($"portwitness: {FaultListText.Of(fault)}");
            }
        }
        else
        {
            FaultListText.Write(writer, conversion.Faults, TextStyle.Plain);
        }
    }

    private static void WriteMoved(TextWriter writer, Conversion conversion)
    {
        if (conversion.MovedCount == 0)
        {
            return;
        }

        writer.WriteLine($"Moved, because frames of a line follow one another at least 25 µs apart: {Amounts.Count(conversion.MovedCount, "time", "times")}");
        foreach (MovedRecord moved in conversion.Moved.Take(MaxMoved))
        {
            writer.WriteLine($"  a {moved.Kind.TrimEnd('s')} at {Seconds(moved.FromUs)} s is at {Seconds(moved.ToUs)} s");
        }

        if (conversion.MovedCount > MaxMoved)
        {
            writer.WriteLine(string.Create(CultureInfo.InvariantCulture, $"  and {conversion.MovedCount - MaxMoved} more"));
        }
    }

    private static string Seconds(long us) => (us / 1_000_000m).ToString("0.000000", CultureInfo.InvariantCulture);

    private static string Counts(IEnumerable<RecordCount> counts) => string.Join(
        ", ", counts.Where(count => count.Count > 0).Select(count => Amounts.Count(count.Count, count.Kind.TrimEnd('s'), count.Kind))
            .DefaultIfEmpty("no records"));
}
