using System.Text;

namespace Portwitness.Captures.Tables;

/// <summary>How surely a heading says what its column holds, the surest first.</summary>
internal enum HeadingMatch
{
    /// <summary>The whole name, with a unit of that kind.</summary>
    NameAndUnit,

    /// <summary>The whole name.</summary>
    Name,

    /// <summary>One of its words.</summary>
    Word,
}

/// <summary>What the heading of a column says.</summary>
/// <param name="Holds">What the column holds; null when the heading does not say.</param>
/// <param name="Unit">Its unit; null when the heading states none of that kind.</param>
/// <param name="Match">How surely.</param>
internal readonly record struct HeadingReading(string? Holds, TableUnit? Unit, HeadingMatch Match);

/// <summary>
/// Reads the headings of columns: "Time (ms)" is a time in milliseconds. The unit goes before the words, so that "VBUS Current 2 (A)" is
/// no voltage.
/// </summary>
internal static class TableHeading
{
    private static readonly char[] Separators = [' ', '_', '/', '-', '.', ',', '(', ')', '[', ']'];

    // "Data Length" is no data, and "Current Limit" no current that flowed.
    private static readonly string[] OtherThings =
    [
        "length", "len", "size", "count", "number", "type", "rate", "role", "index", "id", "delta", "diff", "difference", "interval",
        "limit", "min", "max", "minimum", "maximum", "set", "setpoint", "setting", "target", "offset",
    ];

    private static readonly (string Holds, string[] Names)[] OfMessages =
    [
        ("time", ["time", "t", "timestamp", "starttime"]),
        ("sop", ["sop", "soptype", "sopkind", "orderedset"]),
        ("direction", ["direction", "dir"]),
        ("hex", ["hex", "data", "payload", "raw", "rawdata", "rawhex", "bytes", "hexdata", "datahex", "messagehex", "frame", "words"]),
        ("header", ["header", "messageheader", "headerhex"]),
        ("crc", ["crc", "crcok", "crcstatus"]),
    ];

    private static readonly (string Holds, string[] Names)[] OfMeasurements =
    [
        ("time", ["time", "t", "timestamp"]),
        ("volts", ["volts", "volt", "voltage", "v", "u", "vbus", "vbusvoltage"]),
        ("amps", ["amps", "amp", "current", "a", "i", "ibus", "vbuscurrent"]),
    ];

    /// <summary>What a heading says.</summary>
    public static HeadingReading Read(ReadOnlySpan<byte> heading, bool ofMeasurements)
    {
        string text = Encoding.UTF8.GetString(heading).Trim();
        (string name, string unit) = Split(text);
        (string Holds, string[] Names)[] known = ofMeasurements ? OfMeasurements : OfMessages;
        foreach (string whole in (string[])[name, text])
        {
            if (Find(known, whole) is { } holds && Fits(holds, unit))
            {
                TableUnit? stated = UnitOf(holds, name, unit);
                return new HeadingReading(holds, stated, stated is null ? HeadingMatch.Name : HeadingMatch.NameAndUnit);
            }
        }

        return OfWords(known, name, unit);
    }

    /// <summary>The unit of a column that is known to hold something; null when its heading states none of that kind.</summary>
    public static TableUnit? UnitFor(ReadOnlySpan<byte> heading, string holds)
    {
        (string name, string unit) = Split(Encoding.UTF8.GetString(heading).Trim());
        return UnitOf(holds, name, unit);
    }

    /// <summary>Whether a line, blanks taken off, is the headings of a table of messages.</summary>
    public static bool IsLikely(ReadOnlySpan<byte> line)
    {
        RowSplitter row = new() { Delimiter = RowSplitter.DelimiterOf(line) };
        row.Split(line);
        bool time = false;
        bool hex = false;
        for (int cell = 0; cell < row.Count; cell++)
        {
            string? holds = Read(row[cell], ofMeasurements: false).Holds;
            time |= holds == "time";
            hex |= holds is "hex" or "header";
        }

        return time && hex;
    }

    // The first word says what it is. Where the unit says that it cannot be, as of "VBUS Current 2 (A)", another word does.
    private static HeadingReading OfWords((string Holds, string[] Names)[] known, string name, string unit)
    {
        string[] words = name.Split(Separators, StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
        if (words.Length == 0 || Find(known, words[0]) is null
            || words.Any(static word => OtherThings.Contains(word, StringComparer.OrdinalIgnoreCase)))
        {
            return default;
        }

        string? holds = words.Take(unit.Length == 0 ? 1 : words.Length).Select(word => Find(known, word))
            .FirstOrDefault(one => one is not null && Fits(one, unit));
        return holds is null ? default : new HeadingReading(holds, UnitOf(holds, words[0], unit), HeadingMatch.Word);
    }

    // "Current (mA)", "I/A", "time_us". What stands in brackets and is no unit is a word of the name.
    private static (string Name, string Unit) Split(string text)
    {
        int open = text.LastIndexOfAny(['(', '[']);
        int close = open < 0 ? -1 : text.IndexOfAny([')', ']'], open);
        if (close > open && TableUnits.IsAny(text[(open + 1)..close].Trim()))
        {
            return ((text[..open] + text[(close + 1)..]).Trim(), text[(open + 1)..close].Trim());
        }

        int last = text.LastIndexOfAny(['/', '_', ' ']);
        return last > 0 && TableUnits.IsAny(text[(last + 1)..]) ? (text[..last].Trim(), text[(last + 1)..]) : (text, "");
    }

    private static bool Fits(string holds, string unit) => unit.Length == 0 || TableUnits.Find(holds, unit) is not null;

    // "volts" and "amps" are units themselves.
    private static TableUnit? UnitOf(string holds, string name, string unit) =>
        unit.Length > 0 ? TableUnits.Find(holds, unit)
        : holds != "time" && name.Length > 1 ? TableUnits.Find(holds, name)
        : null;

    private static string? Find((string Holds, string[] Names)[] known, string heading)
    {
        string letters = string.Concat(heading.Where(char.IsAsciiLetterOrDigit)).ToLowerInvariant();
        return Array.Find(known, entry => entry.Names.Contains(letters)).Holds;
    }
}
