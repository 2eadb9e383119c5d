using System.Globalization;
using System.Text;
using Portwitness.Contracts.V1;

namespace Portwitness.Reports.Text;

/// <summary>How a label was read, for people: under each line of the text what was read there, and what was not.</summary>
public static class LabelText
{
    /// <summary>The lines with their ratings, then what was repaired, what is wrong, and the cautions.</summary>
    public static void Write(TextWriter writer, Label label, TextStyle style)
    {
        LabelRows rows = LabelRows.Of(label);
        writer.WriteLine(style.Heading(label.ByHand ? "Ratings entered by hand" : "Label as read"));
        if (label.Photo is not null)
        {
            Paragraph.WriteWrapped(writer, style, "  ", "  ", PhotoWords.Of(label));
        }

        string[] lines = label.Text.TrimStart('\uFEFF').Replace("\r\n", "\n", StringComparison.Ordinal).Split('\n', '\r');
        int digits = Amounts.Digits(lines.Length);
        ILookup<int, UnreadSpan> unread = label.Unread.ToLookup(static span => span.Line);
        for (int line = 1; line <= lines.Length; line++)
        {
            if (string.IsNullOrWhiteSpace(lines[line - 1]))
            {
                continue;
            }

            string number = Amounts.Number(line).PadLeft(digits);
            writer.WriteLine($"  {number}  {VisibleText.Of(lines[line - 1])}".TrimEnd());
            string marks = Marks(lines[line - 1], unread[line]);
            if (marks.Length > 0)
            {
                writer.WriteLine($"  {new string(' ', digits)}  {marks} not read");
            }

            rows.Write(writer, line, new string(' ', digits + 6));
        }

        writer.WriteLine();
        writer.WriteLine(style.Heading("Words not read: ") + (label.Unread.Count == 0 ? "none" : Amounts.Number(label.Unread.Count + label.UnlistedUnread))
            + (label.UnlistedUnread > 0 ? $", of which the first {Amounts.Number(label.Unread.Count)} are marked" : ""));
        WriteRepairs(writer, label, style);
        WriteOpenPlaces(writer, label, style);
        FindingText.Write(writer, label.Findings, style);
        if (label.UnlistedFindings > 0)
        {
            writer.WriteLine($"{label.UnlistedFindings} more findings are not listed.");
            writer.WriteLine();
        }

        NextStepText.WriteList(writer, "Cautions", label.Cautions, style);
    }

    internal static void WriteUnread(TextWriter writer, Label label, TextStyle style, string name = "")
    {
        writer.WriteLine();
        writer.WriteLine(style.Heading(name.Length == 0 ? "Label text not read:" : $"Text of the label \"{VisibleText.Of(name)}\" not read:") + (label.Unread.Count == 0 ? " none" : ""));
        Unread(label).Write(writer, "  ");
        WriteRest(writer, label.UnlistedUnread);
    }

    /// <summary>What a person can settle, with lines to paste into a product file; nothing where there is nothing.</summary>
    internal static void WriteOpenPlaces(TextWriter writer, Label label, TextStyle style)
    {
        OpenPlace[] places = [.. OpenPlaces(label)];
        if (places.Length == 0)
        {
            return;
        }

        writer.WriteLine();
        writer.WriteLine(style.Heading(SettleHeading));
        foreach (OpenPlace place in places)
        {
            writer.WriteLine($"  {Amounts.Place(place.Line, place.Column)}  {VisibleText.Of(place.Text)}");
            foreach (string reading in place.Readings)
            {
                writer.WriteLine($"    - {VisibleText.Of(reading)}");
            }
        }
    }

    internal const string SettleHeading = "To settle: paste one line of each place under label_corrections: in a product file";

    /// <summary>Places that have a reading to offer.</summary>
    internal static IEnumerable<OpenPlace> OpenPlaces(Label label) => label.OpenPlaces.Where(static place => place.Readings.Count > 0);

    /// <summary>Those places, one row for each line to choose.</summary>
    internal static TextTable ToSettle(Label label)
    {
        TextTable table = new();
        foreach (OpenPlace place in OpenPlaces(label))
        {
            for (int i = 0; i < place.Readings.Count; i++)
            {
                table.Add(i == 0 ? Amounts.Place(place.Line, place.Column) : "", i == 0 ? place.Text : "", $"- {place.Readings[i]}");
            }
        }

        return table;
    }

    /// <summary>Places and words that were not read.</summary>
    internal static TextTable Unread(Label label)
    {
        TextTable table = new();
        foreach (UnreadSpan span in label.Unread)
        {
            table.Add(Amounts.Place(span.Line, span.Column), span.Text);
        }

        return table;
    }

    /// <summary>Where something else was read than is printed; nothing when nowhere.</summary>
    internal static void WriteRepairs(TextWriter writer, Label label, TextStyle style)
    {
        if (label.Repairs.Count == 0)
        {
            return;
        }

        writer.WriteLine();
        writer.WriteLine(style.Heading("Read differently than printed"));
        Repairs(label).Write(writer, "  ");
        WriteRest(writer, label.UnlistedRepairs);
    }

    /// <summary>Places where something else was read than is printed, and why.</summary>
    internal static TextTable Repairs(Label label)
    {
        TextTable table = new();
        foreach (PrintedRepair repair in label.Repairs)
        {
            string why = repair.Kind switch
            {
                "characters" => "look-alike characters; look at it",
                "sign" => "look-alike sign",
                "number" => "decimal comma or digits in groups",
                "wrap" => "goes on in the next line",
                "by_hand" => "entered by hand",
                _ => repair.Kind,
            };
            table.Add(Amounts.Place(repair.Line, repair.Column), repair.Before, "as", repair.After, why);
        }

        return table;
    }

    /// <summary>"and 12 more", or nothing.</summary>
    internal static string Rest(int unlisted) => unlisted > 0 ? $"and {Amounts.Number(unlisted)} more" : "";

    private static void WriteRest(TextWriter writer, int unlisted)
    {
        if (unlisted > 0)
        {
            writer.WriteLine($"  {Rest(unlisted)}");
        }
    }

    // Under the printed words; columns count characters, a terminal's cells may be two for one of them.
    private static string Marks(string line, IEnumerable<UnreadSpan> spans)
    {
        StringBuilder marks = new();
        int[]? starts = null;
        (int at, int cells) = (0, 0);
        foreach (UnreadSpan span in spans)
        {
            starts ??= StringInfo.ParseCombiningCharacters(line);
            int start = span.Column >= 1 && span.Column <= starts.Length ? starts[span.Column - 1] : line.Length;
            cells += start > at ? VisibleText.Columns(VisibleText.Of(line[at..start])) : 0;
            at = Math.Max(at, start);
            marks.Append(' ', Math.Max(0, cells - marks.Length));
            marks.Append('^', Math.Max(1, VisibleText.Columns(VisibleText.Of(span.Text))));
        }

        return marks.ToString();
    }
}
