using System.Buffers;
using System.Globalization;
using System.Text;
using Portwitness.Text;

namespace Portwitness.Captures;

/// <summary>All texts of faults: what was found, what was expected, what to do.</summary>
internal static partial class FaultText
{
    public const string Empty =
        "Nothing in the input but blanks. Expected a capture (JSON Lines), a kernel port log, the kernel's power-delivery "
        + "directory, or a list of 32-bit words.";

    public const string Utf16 =
        "The text is UTF-16. Expected UTF-8; save the file as UTF-8 and read it again.";

    public const string LineTooLong =
        "The line is longer than 65536 bytes and was skipped; the lines after it were read. A capture has one record on a line.";

    public const string TimeBackwards =
        "The time is before that of the record above; the record was kept with the time of the record above. "
        + "Expected times that never fall; put captures of different runs into different files.";

    public const string InvalidUtf8 =
        "These bytes are no UTF-8; the line was not read. Save the file as UTF-8.";

    public const string HeaderMissing =
        "The first record stands before any header; records were read, but the port and the ports in use are not known. "
        + "Put a header in the first line, for example {\"capture\":1,\"port\":\"C1\",\"in_use\":[\"C1\"]}.";

    /// <summary>A member that the format does not name.</summary>
    public static string HeaderMemberUnknown(string name, string owner, IReadOnlyList<string> known) =>
        $"{NearestName.UnknownMember(name, owner, known)}. Nothing is read from it.";

    public const string HeaderMisplaced =
        "A header may only be the first line; nothing from here on was read, because it may belong to another port. "
        + "Put each capture into a file of its own.";

    public const string NotAnObject =
        "The line is no JSON object and was not read. Expected one record, for example {\"t\":1042,\"sop\":\"SOP\",\"hex\":\"4102\"}.";

    public const string BrokenEscape = "A \\u escape in this line is no character; the line was not read.";

    public const string RecordUnknown =
        "Nothing in this record says what it records, so it was left out. "
        + "Version 1 knows hex, signal, vbus_mv, ibus_ma, event, rp and line.";

    public const string TimeMissing =
        "The record has no \"t\" and was kept with the time of the record above. Give microseconds from the start in \"t\".";

    public const string TimeInvalid =
        "\"t\" is not usable and the record was kept with the time of the record above. "
        + "Expected a whole number of microseconds from 0 to 9007199254740991.";

    public const string SopMissing =
        "The message has no \"sop\" and was not read. Say whom it is between, for example \"sop\":\"SOP\".";

    public const string HexNotText = "\"hex\" is no text and the message was not read. Expected header and payload as hex digits.";

    public const string HexOdd =
        "An odd number of hex digits: the last byte is half a byte, and the message was not read.";

    public const string HexLength =
        "A message has at least 2 bytes (the header) and may have 1024 here; the message was not read.";

    public const string KnownInvalid =
        "The message was not read, because its mask of known bits cannot be used. "
        + "Expected as many hex digits in \"known\" as in \"hex\".";

    public const string LogUnprefixed =
        "A line of a port log without its time. Expected \"[    1.886496] \" in front; copy the log as the kernel prints it.";

    public const string LogWrapped =
        "This line has no time of its own and may be the wrapped end of the request above, whose fields count as unknown now. "
        + "Join wrapped lines.";

    public const string LogObjectsMissing =
        "Fewer capability lines follow this header than it has objects; those without a line count as unknown.";

    public const string LogOverflow = "The kernel's log was full here and dropped lines. Read the log more often while recording.";

    public const string LogListingUnsupported =
        "This listing counts objects from 1; it is not a Linux port log, which counts from 0, and reading it as one would "
        + "shift every position. Nothing of it was read. Give the words themselves as a list instead.";

    public const string LogWithoutRecords =
        "The text has time stamps like a kernel log, but no line about a USB-C port. "
        + "Expected the port's own log, for example /sys/kernel/debug/usb/tcpm-*/log.";

    public const string ObjectOrphan =
        "No Source_Capabilities that is still open has an object with this index; the line was not used.";

    public const string VdmOrphan = "No vendor-defined message was received before this line; it was not used.";

    public const string WordsOnlyComments = "No word in the list, only comments. Expected words such as 0x0801912C.";

    public const string OffersTooMany = "A list of typed offers has at most 64; those from here on were not read.";

    public const string OffersWithoutOne = "No offer in the list. Expected offers such as 5V 3A, 9V 3A, PPS 3.3-11V 5A.";

    public static string OfferInvalid(string what) => what + ".";

    public const string WordsTooMany =
        "A list has at most 65 words (260 bytes, the longest data block); the words from here on were not read.";

    public const string WordsAfterGap =
        "How many words stood in the skipped line is not known, so neither is the position of those after it; they were not read.";

    public static string Omitted(long count, long line) =>
        string.Create(CultureInfo.InvariantCulture, $"{count} more faults from line {line} on are not listed. Mend the first ones and read again.");

    public static string FormatUnknown(ReadOnlySpan<byte> start) =>
        $"The input begins with {Excerpt(start)}, which no known format does. Expected a capture (JSON Lines, first line "
        + "{\"capture\":1,...}), a kernel port log (\"[    1.886496] PD RX, header: ...\"), a kernel's "
        + "power-delivery directory (pd1/source-capabilities/1:fixed_supply/voltage:5000mV), 32-bit words (0x0801912C ...), "
        + "a text that quotes objects (obj0=0x0801912C, [0] 0801912C, PDO 0: type 0, 5000 mV, 3000 mA []), typed offers (5V 3A, 9V 3A), a pcapng file, "
        + "the CC line as VCD or voltages, "
        + "or a table with headings (time,sop,hex). Of a table with other headings say with --columns which columns it has, "
        + "of bare samples of the CC line with --samples what they are.";

    public static string HeaderVersion(ReadOnlySpan<byte> found) =>
        $"Version {Excerpt(found)} of the capture format is not known here, so no record was read. Expected \"capture\":1; "
        + "convert the file to version 1, or use a newer reader.";

    public static string JsonInvalid(ReadOnlySpan<byte> line, int at) => at >= line.Length
        ? "The JSON object does not end in this line, which was not read. One record is one whole line."
        : $"The JSON breaks at {Excerpt(line[at..])}; the line was not read.";

    public static string MemberRepeated(ReadOnlySpan<byte> name) => $"{Excerpt(name)} stands twice; the first value was taken.";

    public static string MemberInvalid(string name, ReadOnlySpan<byte> found, string expected, string done) =>
        $"\"{name}\" is {Excerpt(found)}; expected {expected}. {done}";

    public static string NotHex(ReadOnlySpan<byte> found) =>
        $"{Excerpt(found)} is no hex digit, and the message was not read. Expected digits 0-9 and A-F without separators.";

    public static string EventUnknown(ReadOnlySpan<byte> found) =>
        $"{Excerpt(found)} is no event that version 1 knows; it was passed on. Known: {string.Join(", ", CaptureEvents.All)}.";

    public static string LogUnreadable(ReadOnlySpan<byte> rest) => rest.IsEmpty
        ? "The line ends too early for what it begins to say; it was not used. Copy the log as the kernel prints it."
        : $"{Excerpt(rest)} is not how the kernel goes on here; the line was not used. Copy the log as the kernel prints it.";

    public static string WordInvalid(ReadOnlySpan<byte> token) =>
        $"{Excerpt(token)} is no 32-bit word; its place was kept and its bits count as unknown. "
        + "Expected exactly 8 hex digits, with or without 0x.";

    /// <summary>The first bytes as printable text, so that nothing of a hostile input reaches a terminal.</summary>
    private static string Excerpt(ReadOnlySpan<byte> bytes, int longest = 24)
    {
        StringBuilder text = new("'");
        ReadOnlySpan<byte> shown = bytes[..Math.Min(bytes.Length, longest)];
        while (!shown.IsEmpty)
        {
            // What the cut leaves of a character is none.
            OperationStatus status = Rune.DecodeFromUtf8(shown, out Rune rune, out int length);
            if (status == OperationStatus.NeedMoreData && bytes.Length > longest)
            {
                break;
            }

            if (status == OperationStatus.Done && IsVisible(rune))
            {
                _ = rune.IsAscii ? text.Append((char)rune.Value) : text.Append(rune.ToString());
            }
            else
            {
                foreach (byte value in shown[..length])
                {
                    text.Append("\\x").Append(value.ToString("X2", CultureInfo.InvariantCulture));
                }
            }

            shown = shown[length..];
        }

        return text.Append(bytes.Length > longest ? "...'" : "'").ToString();
    }

    // Nothing that moves a cursor, turns the direction of writing, or cannot be seen.
    private static bool IsVisible(Rune rune) => rune.IsAscii
        ? rune.Value is >= 0x20 and < 0x7F
        : Rune.IsLetterOrDigit(rune) || Rune.IsPunctuation(rune) || Rune.IsSymbol(rune);

    public static string PortMissing(string wanted, string[] ports) =>
        $"No port of the capture is named \"{wanted}\". Its header names {string.Join(", ", ports)}; give one of them.";

    public static string PortUnread(string port, long count, string read) =>
        $"{count} records of \"{port}\" were not read: here \"{read}\" is. Give --port \"{port}\" to read them.";

    public static string PortsUnknown(long count, string[] ports) =>
        $"{count} records state a port that the header's \"ports\" do not name ({string.Join(", ", ports)}); they were left out. Correct the header.";
}
