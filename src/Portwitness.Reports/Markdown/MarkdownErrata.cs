using Portwitness.Contracts.V1;
using Portwitness.Reports.Text;

namespace Portwitness.Reports.Markdown;

/// <summary>Errata as Markdown.</summary>
public static class MarkdownErrata
{
    /// <summary>Writes the errata as Markdown.</summary>
    public static void Write(TextWriter writer, Errata errata)
    {
        ArgumentNullException.ThrowIfNull(errata);
        writer.WriteLine($"# Errata: {MarkdownText.Of(errata.After.Product)}");
        writer.WriteLine();
        writer.WriteLine(MarkdownText.Of(ErrataText.Summary(errata)));
        foreach ((string subject, string heading) in ErrataText.Order.Where(one => errata.Entries.Any(entry => entry.Subject == one.Subject)))
        {
            writer.WriteLine();
            writer.WriteLine($"## {heading}");
            writer.WriteLine();
            foreach (ErrataEntry entry in errata.Entries.Where(entry => entry.Subject == subject))
            {
                writer.WriteLine($"- {MarkdownText.Of(ErrataText.Sentence(entry))}");
                foreach (string line in ErrataText.Behind(entry))
                {
                    writer.WriteLine($"  - {MarkdownText.Of(line)}");
                }
            }
        }
    }
}
