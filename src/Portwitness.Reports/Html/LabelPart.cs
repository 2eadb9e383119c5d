using System.Xml.Linq;
using Google.Protobuf.Collections;
using Portwitness.Contracts.V1;
using Portwitness.Reports.Text;

namespace Portwitness.Reports.Html;

/// <summary>The printed text with each statement marked where it stands, and below it what was seen of each.</summary>
internal static class LabelPart
{
    // What stands between one statement and the next.
    private static readonly char[] Between = [' ', '\t', '(', '[', ',', ';', '/', '|'];

    /// <summary>One section a label.</summary>
    public static IEnumerable<XElement?> Of(ProductReport report, IReadOnlyDictionary<string, byte[]> pictures)
    {
        yield return report.Label is null ? null : Of(report.Label, report.Statements, "label", StatementText.Heading(report.Label.ByHand, report.LabelName), pictures);
        for (int i = 0; i < report.FurtherLabels.Count; i++)
        {
            FurtherLabel further = report.FurtherLabels[i];
            yield return Of(further.Label, further.Statements, $"label-{Amounts.Number(i + 2)}", StatementText.Heading(byHand: false, further.Name), pictures);
        }
    }

    private static XElement? Of(Label label, RepeatedField<Statement> statements, string id, string heading, IReadOnlyDictionary<string, byte[]> pictures)
    {
        string[] lines = label.Text.ReplaceLineEndings("\n").TrimEnd('\n').Split('\n');
        return Markup.Section(
            id, heading,
            Markup.Scrolling(
                $"{heading}: the text",
                Markup.Element("ol", Markup.Class("print"), lines.Select((line, index) => Line(line, index + 1, label, statements)).ToArray())),
            Markup.Element("p", Markup.Class("small"), "✓ holds, ✗ fails, ? cannot tell; … was not read."),
            label.Photo is null ? null : Markup.Element("p", PhotoWords.Of(label)),
            statements.Count == 0 ? null : Statements(statements, heading),
            ToSettle(label, heading),
            PhotoPlot.Of(label, $"{id}-photo", pictures.GetValueOrDefault(label.Text)));
    }

    private static XElement? ToSettle(Label label, string heading)
    {
        OpenPlace[] places = [.. LabelText.OpenPlaces(label)];
        return places.Length == 0 ? null : Markup.Scrolling($"{heading}: to settle", Markup.Element(
            "table",
            Markup.Element("caption", LabelText.SettleHeading),
            Markup.Headings("printed at", "printed", "lines to choose from"),
            Markup.Element("tbody", places.Select(place => Markup.Element(
                "tr",
                Markup.Element("td", Amounts.Place(place.Line, place.Column)),
                Markup.Element("th", new XAttribute("scope", "row"), place.Text),
                Markup.Element("td", Markup.Class("long"), place.Readings.Select(reading => Markup.Element("p", Markup.Element("code", $"- {reading}"))).ToArray()))).ToArray())));
    }

    private static XElement Statements(RepeatedField<Statement> statements, string heading) => Markup.Scrolling($"{heading}: statements", Markup.Element(
        "table",
        Markup.Element("caption", "Each printed statement and what was seen of it"),
        Markup.Headings("verdict", "statement", "evidence", "printed at"),
        Markup.Element("tbody", statements.Select(statement => Markup.Element(
            "tr",
            Markup.Element("td", Markup.Mark(statement.Verdict)),
            Markup.Element("th", new XAttribute("scope", "row"), statement.Claim),
            Markup.Element("td", Markup.Class("long"), statement.Evidence, statement.NextStep.Length > 0 ? Markup.Element("p", Markup.Class("small"), $"next: {statement.NextStep}") : null),
            Markup.Element("td", Amounts.Place(statement.LabelLine, statement.LabelColumn)))).ToArray())));

    // What stands before the first marked place, and between one and the next, belongs to the mark before it.
    private static XElement Line(string line, int number, Label label, RepeatedField<Statement> statements)
    {
        List<(int Column, int Length, string Class, string Sign)> marks =
        [
            .. statements.Where(statement => statement.LabelLine == number).GroupBy(statement => statement.LabelColumn)
                .Select(at => (at.Key, 0, Markup.Word(Worst(at)), Markup.Sign(Worst(at)))),
            .. label.Unread.Where(span => span.Line == number && !statements.Any(one => one.LabelLine == number && one.LabelColumn == span.Column))
                .Select(span => (span.Column, span.Text.Length, "unread", "…")),
        ];
        marks.RemoveAll(mark => mark.Column < 1 || mark.Column > line.Length);
        marks.Sort((one, other) => one.Column.CompareTo(other.Column));
        List<object> parts = [];
        int done = 0;
        for (int at = 0; at < marks.Count; at++)
        {
            (int column, int length, string kind, string sign) = marks[at];
            int start = Math.Max(done, column - 1);
            int next = at + 1 < marks.Count ? marks[at + 1].Column - 1 : line.Length;
            int end = Math.Clamp(length > 0 ? column - 1 + length : next, start, line.Length);
            string marked = line[start..end].TrimEnd(Between);
            if (marked.Length == 0)
            {
                continue;
            }

            parts.Add(line[done..start]);
            parts.Add(Markup.Element("span", Markup.Class($"at {kind}"), marked, Markup.Element("sup", sign)));
            done = start + marked.Length;
        }

        parts.Add(line[done..]);
        return Markup.Element("li", parts.ToArray());
    }

    private static Verdict Worst(IEnumerable<Statement> statements) => statements.Any(statement => statement.Verdict == Verdict.Fails) ? Verdict.Fails
        : statements.All(statement => statement.Verdict == Verdict.Holds) ? Verdict.Holds : Verdict.CannotTell;
}
