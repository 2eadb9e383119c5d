using System.Globalization;

namespace Portwitness.Captures;

/// <summary>Texts about logs of power.</summary>
internal static partial class FaultText
{
    public const string TableNotUtf8 =
        "The table is not UTF-8, and was not read. Save it as UTF-8 text, with headings such as \"time (s), volts, amps\".";

    public static string PowerLogTimeOpen(ReadOnlySpan<byte> cell) =>
        $"{Excerpt(cell)} may be hours and minutes, or minutes and seconds, and nothing in the log tells which; no row was used. State it in the "
        + "heading, \"time (hh:mm)\" or \"time (mm:ss)\", or with \"columns: time=1:hh:mm,volts=2:V,amps=3:A\".";

    public const string PowerLogWithoutRows =
        "No row of the log could be used. Expected headings and rows such as \"0.5, 5.021, 1.998\".";

    public static string PowerLogColumnsMissing(IReadOnlyList<string> missing) =>
        $"No column is known to hold {string.Join(" or ", missing)}; an energy needs time, volts and amps, so nothing was read. Name the columns in "
        + "the first line, or say which they are with \"columns: time=1:s,volts=2:V,amps=3:A\".";

    public static string PowerLogTemperatureMissing(string name) =>
        $"No column is headed \"{name}\", so no temperature of it was read. Name under \"temperatures:\" what stands over the columns.";

    public static string PowerLogCells(int found, int expected) => string.Create(
        CultureInfo.InvariantCulture,
        $"The row has {found} cells where the first line has {expected}; it was left out. Numbers with a decimal comma need semicolons or tabs between "
            + $"the columns, or quotes.");

    public static string PowerLogTime(ReadOnlySpan<byte> cell) =>
        $"{Excerpt(cell)} is no time that can be used; the row was left out. Expected a number such as 1.25 or 1,25, a time of day (9:14:07.25), or a "
        + "date with the year first.";

    public static string PowerLogValue(string holds, ReadOnlySpan<byte> cell) =>
        $"{Excerpt(cell)} is no value of {holds} from -1000 to 1000; the row was left out. Expected a number such as 5.021 or 5,021.";

    public static string PowerLogTooLong(long most) => string.Create(
        CultureInfo.InvariantCulture, $"The log has more than {most} rows; those from here on were left out. Log fewer rows a second.");
}
