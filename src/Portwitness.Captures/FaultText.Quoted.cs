using System.Globalization;

namespace Portwitness.Captures;

/// <summary>Texts about quoted lists.</summary>
internal static partial class FaultText
{
    public const string QuotedTooLong = "A quoted text has at most 262144 bytes; from this line on nothing was read. Quote the lists alone.";

    public const string QuotedTooMany = "A quoted text has at most 64 lists of at most 65 objects; from here on nothing was read.";

    public const string QuotedWithoutOne =
        "No object of a capability list in the text. Expected words such as obj0=0x0801912C, [0] 0801912C or { 0x0801912C, 0x0002D12C }, or lines "
        + "such as PDO 0: type 0, 5000 mV, 3000 mA [E].";

    public const string QuotedWithout5V =
        "Words without numbers of which the first is no 5 V supply: whether they are a list is not known, and they were not read. Say with "
        + "--quoted words that they are, or number them.";

    public const string QuotedOfSink = "This list stands under words about a sink; lists of sources are read here, and it was not read.";

    public static string QuotedObjectUnread(ReadOnlySpan<byte> found) =>
        $"{Excerpt(found, 40)} begins an object that cannot be read; its place was kept and its bits count as unknown.";

    public static string QuotedBytesLeft(int count) =>
        string.Create(CultureInfo.InvariantCulture, $"The bytes end with {count} that make no word; the object counts as unknown.");

    public static string QuotedIndexTooLarge(int index) =>
        string.Create(CultureInfo.InvariantCulture, $"No list has an object with the number {index}; it was not read.");
}
