using Portwitness.Contracts.V1;

namespace Portwitness.Reports.Text;

/// <summary>What a conversion read, wrote and left out.</summary>
public static class ConversionText
{
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

        if (conversion.From.Length == 0)
        {
            foreach (Fault fault in conversion.Faults)
            {
                writer.WriteLine($"portwitness: {FaultText.Of(fault)}");
            }
        }
        else
        {
            FaultText.Write(writer, conversion.Faults, TextStyle.Plain);
        }
    }

    private static string Counts(IEnumerable<RecordCount> counts) => string.Join(
        ", ", counts.Where(count => count.Count > 0).Select(count => Amounts.Count(count.Count, count.Kind.TrimEnd('s'), count.Kind))
            .DefaultIfEmpty("no records"));
}
