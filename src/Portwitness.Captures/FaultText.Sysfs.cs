using Portwitness.PowerDelivery.Layout;

namespace Portwitness.Captures;

/// <summary>Texts about the kernel's directories, and about archives.</summary>
internal static partial class FaultText
{
    public const string SysfsWithoutObjects =
        "No object of a capability list in it. Expected lines such as pd1/source-capabilities/1:fixed_supply/voltage:5000mV; "
        + "make them with grep -r . /sys/class/typec/port0-partner/usb_power_delivery/ while the charger is attached.";

    public const string ArchiveCut =
        "The archive ends within a file; what came before was read. Make the archive again.";

    public const string GzipInvalid =
        "The compressed data is damaged, cut off, or followed by other data; what could be unpacked was read. Make the file again.";

    public const string GzipTooLong =
        "The compressed file grows to more than 250 times its length, as no capture does; the rest was not read. If it is one, "
        + "give the unpacked file.";

    public const string ArchiveEntryInvalid =
        "This is no header of a tar archive; nothing from here on was read. Make the archive again with tar.";

    public static string ArchiveEntryTooLong(ReadOnlySpan<byte> path) =>
        $"{Path(path)} is longer than 4096 bytes, which no attribute of the kernel is; it was not read.";

    public static string SysfsTypeUnknown(ReadOnlySpan<byte> path, ReadOnlySpan<byte> type) =>
        $"{Path(path)}: {Excerpt(type)} is no type of object that is known here; its place was kept and its bits count as unknown.";

    public static string SysfsTwoTypes(ReadOnlySpan<byte> path) =>
        $"{Path(path)}: another object stands at this position too; its place was kept and its bits count as unknown. "
        + "Read the directory again while one charger stays attached.";

    public static string SysfsPositionInvalid(ReadOnlySpan<byte> path) =>
        $"{Path(path)}: a list has positions 1 to 7; the line was not used.";

    public static string SysfsValueInvalid(ReadOnlySpan<byte> path, ReadOnlySpan<byte> value, BitField field)
    {
        string expected = field.Unit switch
        {
            FieldUnit.Millivolts => $"a multiple of {field.Scale}mV up to {field.Maximum * field.Scale}mV",
            FieldUnit.Milliamperes => $"a multiple of {field.Scale}mA up to {field.Maximum * field.Scale}mA",
            FieldUnit.Milliwatts => $"a multiple of {field.Scale}mW up to {field.Maximum * field.Scale}mW",
            _ => $"0 to {field.Maximum}",
        };
        return $"{Path(path)}: {Excerpt(value)} is no value of this attribute; expected {expected}. The field counts as unknown.";
    }

    public static string SysfsValueRepeated(ReadOnlySpan<byte> path) =>
        $"{Path(path)} stands twice with different values; the first was taken.";

    public static string SysfsObjectMissing(bool isSource, int position) =>
        $"{(isSource ? "source" : "sink")}-capabilities has no directory for position {position}; the object counts as unknown. "
        + "Kernels that do not know adjustable voltage supplies leave them out.";

    public static string SysfsSeveralPorts(IReadOnlyList<string> paths) =>
        $"Capabilities of several ports: {string.Join(", ", paths)}. Nothing was read; a capture is of one port. Give the "
        + "charger's alone: that is where /sys/class/typec/port0-partner/usb_power_delivery points to.";

    /// <summary>A path as printable text, shortened at the front.</summary>
    public static string Path(ReadOnlySpan<byte> path)
    {
        const int longest = 120;
        return path.IsEmpty ? "'.'"
            : path.Length <= longest ? Excerpt(path, longest)
            : $"...{Excerpt(path[^longest..], longest)}";
    }
}
