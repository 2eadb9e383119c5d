using System.Text;

namespace Portwitness.Captures.Tables;

/// <summary>Reads the headings of columns: "Time (ms)" is a time in milliseconds.</summary>
internal static class TableHeading
{
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

    /// <summary>What the column holds by its heading, and its unit; null where the heading does not say.</summary>
    public static (string? Holds, string? Unit) Read(ReadOnlySpan<byte> heading, bool ofMeasurements)
    {
        string text = Encoding.UTF8.GetString(heading).Trim();
        int cut = text.IndexOfAny(['(', '[', '/', '_', ' ']);
        string? unit = cut < 0 ? null : text[(cut + 1)..].Trim(' ', ')', ']', '(', '[', '_');
        (string Holds, string[] Names)[] known = ofMeasurements ? OfMeasurements : OfMessages;
        string? holds = Find(known, text) ?? (cut < 0 ? null : Find(known, text[..cut]));
        return holds is null ? (null, null)
            : (holds, unit is not null && TableUnits.PowerOf(holds, unit) is not null ? unit : UnitOfName(holds, text));
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

    // "volts" and "amps" are units themselves.
    private static string? UnitOfName(string holds, string text) =>
        holds != "time" && text.Length > 1 && TableUnits.PowerOf(holds, text) is not null ? text : null;

    private static string? Find((string Holds, string[] Names)[] known, string heading)
    {
        string letters = string.Concat(heading.Where(char.IsAsciiLetterOrDigit)).ToLowerInvariant();
        return Array.Find(known, entry => entry.Names.Contains(letters)).Holds;
    }
}
