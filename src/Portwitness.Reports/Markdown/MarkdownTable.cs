using Portwitness.Reports.Text;

namespace Portwitness.Reports.Markdown;

/// <summary>A table of GitHub-flavoured Markdown (GFM 4.10).</summary>
internal static class MarkdownTable
{
    /// <summary>Writes a table; columns that are empty in every row but the heading are left out.</summary>
    /// <param name="writer">Where to.</param>
    /// <param name="heading">The heading's cells; null where the table's first row is the heading.</param>
    /// <param name="table">The rows.</param>
    public static void Write(TextWriter writer, IReadOnlyList<string>? heading, TextTable table)
    {
        IReadOnlyList<string>[] rows = [.. heading is null ? table.Rows.Skip(1) : table.Rows];
        heading ??= table.Rows[0];
        int[] columns = [.. Enumerable.Range(0, heading.Count).Where(column => rows.Any(row => column < row.Count && row[column].Length > 0))];
        if (columns.Length == 0)
        {
            return;
        }

        writer.WriteLine();
        WriteRow(columns.Select(column => MarkdownText.Of(heading[column])));
        WriteRow(columns.Select(static _ => "---"));
        foreach (IReadOnlyList<string> row in rows)
        {
            WriteRow(columns.Select(column => column < row.Count ? MarkdownText.Of(row[column]) : ""));
        }

        void WriteRow(IEnumerable<string> cells) => writer.WriteLine($"| {string.Join(" | ", cells)} |");
    }
}
