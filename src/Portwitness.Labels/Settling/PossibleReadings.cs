using System.Text.RegularExpressions;

namespace Portwitness.Labels;

/// <summary>What may be meant at a place of a label, as corrections that the reader has still to try.</summary>
internal static partial class PossibleReadings
{
    private const int MaxPorts = 6;

    private static readonly char[] Marks = [':', '：', '='];

    private static readonly char[] Separators = [',', ';', '/', '，', '、', '；', '&', '+'];

    private static readonly char[] Brackets = ['(', '[', '（', '【'];

    private static readonly string[] Headings = ["Input", "Output"];

    /// <summary>A word in which characters were taken for others: as it was read, as it is printed.</summary>
    public static IEnumerable<LabelCorrection> OfRepair(PrintedRepair repair, string line)
    {
        int at = line.IndexOf(repair.Before, Math.Clamp(repair.At.Column - 1, 0, line.Length), StringComparison.Ordinal);
        if (at < 0)
        {
            return [];
        }

        (int start, int end) = (at, at + repair.Before.Length);
        while (start > 0 && !char.IsWhiteSpace(line[start - 1]) && !Separators.Contains(line[start - 1]) && !Marks.Contains(line[start - 1]))
        {
            start--;
        }

        while (end < line.Length && !char.IsWhiteSpace(line[end]) && !Separators.Contains(line[end]))
        {
            end++;
        }

        string read = string.Concat(line.AsSpan(start, at - start), repair.After, line.AsSpan(at + repair.Before.Length, end - at - repair.Before.Length));
        return [new LabelCorrection(repair.At.Line, line[start..end], read)];
    }

    /// <summary>Words that were not read.</summary>
    public static IEnumerable<LabelCorrection> Of(Label label, UnreadSpan span, string line)
    {
        AmbiguousCombination? either = label.Ambiguous.FirstOrDefault(
            one => one.At.Line == span.At.Line && span.Text.Contains(one.Text, StringComparison.Ordinal));
        int start = line.IndexOf(span.Text, StringComparison.Ordinal);
        return either is not null ? OfAmbiguous(either) : start < 0 ? [] : OfWords(label, span, line, line[..start].TrimEnd());
    }

    /// <summary>What to enter for each reading of a line that has several.</summary>
    public static IEnumerable<LabelCorrection> OfAmbiguous(AmbiguousCombination either)
    {
        int mark = either.Text.IndexOfAny(Marks);
        string printed = mark < 0 ? either.Text : either.Text[(mark + 1)..].Trim();
        string ports = mark < 0 ? $"{string.Join('+', either.Readings[0].Ports)}: " : "";
        return either.Readings.Select(reading => new LabelCorrection(either.At.Line, printed, ports + Words(reading)));
    }

    private static IEnumerable<LabelCorrection> OfWords(Label label, UnreadSpan span, string line, string before)
    {
        int number = span.At.Line;
        string[] outputs = [.. label.Outputs.Where(static output => output.Alternating.IsEmpty).Select(static output => output.Port).Take(MaxPorts)];
        int value = span.Text.AsSpan().IndexOfAnyInRange('0', '9');

        // "5V⎓3A, QX 9V⎓2A": the protocol of the same port.
        if (before.Length > 0 && Separators.Contains(before[^1]) && value > 0)
        {
            yield return new LabelCorrection(number, line[(before.Length - 1)..(line.IndexOf(span.Text, StringComparison.Ordinal) + span.Text.Length)], $" {span.Text}");
        }

        // "Charging:", and "Output:" where ports have names.
        int colon = span.Text.IndexOfAny(Marks);
        string head = colon < 0 ? span.Text : span.Text[..colon].TrimEnd();
        bool isPort = IsPort(head, outputs);

        // "USB-A (Schnellladen):": a port with words about it. Any other port would be a misreading to paste.
        int bracket = head.IndexOfAny(Brackets);
        if (bracket > 0 && head[..bracket].TrimEnd() is var port && IsPort(port, outputs))
        {
            yield return new LabelCorrection(number, head, port);
            yield break;
        }

        if (isPort || (head.Length > 0 && (colon > 0 || value < 0)))
        {
            foreach (string heading in isPort ? Headings.Select(heading => $"{heading} {head}") : Headings.Concat(outputs))
            {
                yield return new LabelCorrection(number, head, colon < 0 ? $"{heading}:" : heading);
            }
        }

        // "C1: …, C2: …, max. 65W".
        if (before.Length > 0 && !span.Text.Contains('+', StringComparison.Ordinal) && Power.Match(span.Text) is { Success: true } watts)
        {
            foreach (string output in outputs)
            {
                yield return new LabelCorrection(number, span.Text, $"; {output}: {watts.Value} max");
            }

            yield return new LabelCorrection(number, span.Text, $"; Total: {watts.Value}");
        }

        // Words in front of the values say nothing.
        if (value > 0 && !isPort)
        {
            yield return new LabelCorrection(number, span.Text, span.Text[value..]);
        }
    }

    private static bool IsPort(string name, string[] outputs) => outputs.Any(port => PortNames.Same(port, name)) || PortGrammar.IsName(name);

    [GeneratedRegex("[0-9]+([.,][0-9]+)? ?W", RegexOptions.None, matchTimeoutMilliseconds: 1000)]
    private static partial Regex Power { get; }

    private static string Words(PrintedCombination reading)
    {
        IEnumerable<string> shares = reading.Split.Select(static share =>
            $"{share.Port} {string.Join(' ', share.Fixed.Select(static mode => mode.Text).Append(InShort(share.Power?.ToString())).Where(static part => part is not null))}");
        bool isOfAll = reading.Split.IsEmpty && reading.Pools is [var all] && all.Ports.Length == reading.Ports.Length;
        IEnumerable<string> pools = reading.Pools.Select(pool =>
            isOfAll ? $"{InShort(pool.Voltage?.ToString())}⎓{InShort(pool.Current?.ToString())} shared" : $"{string.Join('+', pool.Ports)} share {InShort(pool.Power?.ToString())}");
        string total = reading.Total is { } watts ? $" ({InShort(watts.ToString())} total)" : "";
        return string.Join(", ", shares.Concat(pools)) + total;
    }

    // As labels print it: "45W".
    private static string? InShort(string? amount) => amount?.Replace(" ", "", StringComparison.Ordinal);
}
