using System.Buffers.Text;

namespace Portwitness.Captures.Sysfs;

/// <summary>
/// One attribute of an object, as "grep -r ." prints it: path, colon, value. Directories of objects have a colon in
/// their names too: "pd0/source-capabilities/1:fixed_supply/voltage:5000mV".
/// </summary>
internal readonly ref struct SysfsLine
{
    /// <summary>What stands in front of the capabilities: the directory of the port's or the partner's PD device.</summary>
    public ReadOnlySpan<byte> Device { get; private init; }

    /// <summary>Whether it is of source-capabilities; of sink-capabilities otherwise.</summary>
    public bool IsSource { get; private init; }

    /// <summary>Position of the object, counted from 1; 0 when the number is too large for any list.</summary>
    public int Position { get; private init; }

    /// <summary>Type of the object, for example "fixed_supply".</summary>
    public ReadOnlySpan<byte> Type { get; private init; }

    /// <summary>Name of the attribute.</summary>
    public ReadOnlySpan<byte> Attribute { get; private init; }

    /// <summary>Its value, without blanks around it and without the NULs with which tar fills sysfs files up.</summary>
    public ReadOnlySpan<byte> Value { get; private init; }

    /// <summary>Whether there is nothing in place of the value but such NULs.</summary>
    public bool IsPadding { get; private init; }

    /// <summary>The line without its value, for people.</summary>
    public ReadOnlySpan<byte> Path { get; private init; }

    /// <summary>Whether a line speaks for this format.</summary>
    public static bool IsLikely(ReadOnlySpan<byte> line) => !line.StartsWith("#"u8)
        && (TryRead(line, out _) || TryReadRevision(line, out _) || line.IndexOf("/usb_power_delivery/"u8) >= 0);

    /// <summary>Reads a line; false when it is about something else than an object's attribute.</summary>
    public static bool TryRead(ReadOnlySpan<byte> text, out SysfsLine line)
    {
        line = default;
        text = Unquoted(text);
        if (text.StartsWith("#"u8) || !FindCapabilities(text, out int start, out int end, out bool isSource))
        {
            return false;
        }

        // "1:fixed_supply/voltage:5000mV"
        ReadOnlySpan<byte> rest = text[end..];
        int slash = rest.IndexOf((byte)'/');
        int typeAt = rest.IndexOf((byte)':') + 1;
        int colon = slash < 0 ? -1 : rest[slash..].IndexOf((byte)':') + slash;
        if (typeAt < 2 || typeAt > slash || colon < slash || rest[..(typeAt - 1)].ContainsAnyExceptInRange((byte)'0', (byte)'9')
            || rest[(slash + 1)..colon].Contains((byte)'/'))
        {
            return false;
        }

        _ = Utf8Parser.TryParse(rest[..(typeAt - 1)], out int position, out _);
        line = new SysfsLine
        {
            Device = text[..start].TrimEnd((byte)'/'),
            IsSource = isSource,
            Position = position,
            Type = rest[typeAt..slash],
            Attribute = rest[(slash + 1)..colon],
            Value = rest[(colon + 1)..].Trim(" \t\r\0"u8),
            IsPadding = rest[(colon + 1)..] is { IsEmpty: false } value && !value.ContainsAnyExcept((byte)0),
            Path = text[..(end + colon)],
        };
        return true;
    }

    /// <summary>Reads what a partner's own directory says of its revision: major 3 of "port0-partner/usb_power_delivery_revision:3.0".</summary>
    public static bool TryReadRevision(ReadOnlySpan<byte> text, out int major)
    {
        ReadOnlySpan<byte> name = "-partner/usb_power_delivery_revision:"u8;
        int at = text.IndexOf(name);
        major = 0;
        return at >= 0 && Utf8Parser.TryParse(text[(at + name.Length)..], out major, out _);
    }

    private static ReadOnlySpan<byte> Unquoted(ReadOnlySpan<byte> text) => text.TrimStart("> \t|"u8);

    // The kernel writes a hyphen; its description of the interface has an underscore in one place.
    private static bool FindCapabilities(ReadOnlySpan<byte> text, out int start, out int end, out bool isSource)
    {
        (start, end, isSource) = (0, 0, false);
        while (text[end..].IndexOf("capabilities/"u8) is >= 0 and int found)
        {
            int at = end + found;
            end = at + "capabilities/"u8.Length;
            ReadOnlySpan<byte> before = text[..at];
            isSource = before.EndsWith("source-"u8) || before.EndsWith("source_"u8);
            start = at - (isSource ? 7 : 5);
            if ((isSource || before.EndsWith("sink-"u8) || before.EndsWith("sink_"u8)) && (start == 0 || text[start - 1] == '/'))
            {
                return true;
            }
        }

        return false;
    }
}
