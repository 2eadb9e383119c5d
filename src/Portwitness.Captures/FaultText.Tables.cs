using System.Globalization;

namespace Portwitness.Captures;

/// <summary>Texts about tables.</summary>
internal static partial class FaultText
{
    public const string TableEmpty = "No line in the table but comments. Expected headings or records.";

    public const string TableSopAssumed =
        "No column says whom messages are between (SOP, SOP', SOP''); all were read as SOP. If the table says it, name the "
        + "column, for example --columns sop=3.";

    public const string TableQuoteOpen =
        "A quote is not closed in this line, which was not read. A record of a table is one line.";

    public static string TableUnitAssumed(string column, string unit, string option) =>
        $"Nothing says in which unit {column} is; {unit} were taken. State it in the heading, for example \"{column} ({ShortUnit(column)})\", or with {option}.";

    public static string TableColumnMissing(string column, string holds, ReadOnlySpan<byte> first) =>
        $"There is no column {Name(column)} for {holds}; nothing was read. The first line has {Excerpt(first, 200)}. "
        + "Give a number counted from 1, or a name from that line.";

    public static string TableColumnsMissing(IReadOnlyList<string> missing, bool ofMeasurements, ReadOnlySpan<byte> first) =>
        $"No column is known to hold {string.Join(" or ", missing)}; nothing was read. The first line has {Excerpt(first, 200)}. Say which, for "
        + (ofMeasurements ? "example --measurement-columns time=1:s,volts=2:V,amps=3:A." : "example --columns time=1:ms,sop=3,hex=7.");

    public static string TableRowsEmpty(long count, long line) =>
        $"{count} lines without a message, the first in line {line}, were passed over.";

    public static string TableSopInvalid(ReadOnlySpan<byte> cell) =>
        $"{Excerpt(cell)} is no kind of message; the line was not read. Expected SOP, SOP', SOP'', their debug kinds, Hard Reset or Cable Reset.";

    public static string TableCrcInvalid(ReadOnlySpan<byte> cell) =>
        $"{Excerpt(cell)} does not say whether the CRC was right; it was taken for wrong. Expected ok, bad, or the four bytes.";

    public static string TableTimeInvalid(ReadOnlySpan<byte> cell) =>
        $"{Excerpt(cell)} is no time that can be used; the record was kept with the time of the record above. Expected a number such "
        + "as 1.25 or 1,25, a time of day (9:14:07.25), or a date with the year first.";

    public static string TableTimeOpen(ReadOnlySpan<byte> cell, string option) =>
        $"{Excerpt(cell)} may be hours and minutes, or minutes and seconds, and no row before it tells which; records with such times were kept with "
        + $"the time of the record above. State it in the heading, \"time (hh:mm)\" or \"time (mm:ss)\", or with the column, {option} time=1:mm:ss.";

    public static string TableHexInvalid(string code, ReadOnlySpan<byte> cell) => code == FaultCodes.HexLength
        ? HexLength
        : $"{Excerpt(cell, 60)} is no message, and was not read. Expected bytes as on the wire (A1412C91 or A1 41 2C 91), or a 16-bit "
            + "header and 32-bit words (0x41A1 0x0801912C).";

    public static string MeasurementInvalid(string holds, ReadOnlySpan<byte> cell) =>
        $"{Excerpt(cell)} is no value of {holds} from -1000 to 1000; it was left out.";

    public static string MeasurementsBefore(long count, long line) =>
        $"{count} lines, the first of them line {line}, are before the start of the capture and were left out. Give an --offset that moves them behind it.";

    public static string OfMeasurements(CaptureFault fault)
    {
        string line = fault.Line > 0 ? string.Create(CultureInfo.InvariantCulture, $" line {fault.Line}") : "";
        return $"Measurements{line}: {fault.Detail} ({fault.Code})";
    }

    private static string ShortUnit(string column) => column switch { "volts" => "V", "amps" => "A", _ => "s" };
}
