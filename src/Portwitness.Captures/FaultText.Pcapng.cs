using System.Globalization;

namespace Portwitness.Captures;

/// <summary>Texts about pcapng files. Such a file has no lines; its bytes count from 0, as other programs count them.</summary>
internal static partial class FaultText
{
    private const string NotReadOn = "Nothing from there on was read; what is before it was.";

    public static string PcapngCut(long offset) =>
        $"{Begins(offset)} a block that the file ends in the middle of; what is before it was read. Copy or record the file again.";

    public static string PcapngLength(long offset, uint length) =>
        $"{Begins(offset)} a block that claims {length} bytes, which no block has. {NotReadOn}";

    public static string PcapngLengthsDiffer(long offset, int first, uint second) =>
        $"{Begins(offset)} a block that claims {first} bytes at its start and {second} at its end. {NotReadOn}";

    public static string PcapngByteOrder(long offset) =>
        $"{Begins(offset)} a section whose byte order cannot be told; 1A2B3C4D was expected. {NotReadOn}";

    public static string PcapngVersion(long offset, ushort major, ushort minor) =>
        $"{Begins(offset)} a section of version {major}.{minor}; 1.0 was expected. {NotReadOn}";

    public static string PcapngBlockTooLong(long offset, uint length) =>
        $"{Begins(offset)} a block of {length} bytes; blocks of up to 524288 are read. It was passed over.";

    public static string PcapngBlockTooShort(long offset) =>
        $"{Begins(offset)} a block too short for what its type holds; it was passed over.";

    public static string PcapngPacketLength(long offset, uint captured) =>
        $"{Begins(offset)} a packet that claims {captured} bytes, more than its block holds; it was left out.";

    public static string PcapngRecordCut(long offset, uint captured, uint original) =>
        $"{Begins(offset)} a packet of which {captured} of {original} bytes were kept; half a record is none, and it was left "
        + "out. Record without a limit of the packet's length.";

    public static string PcapngTimeInvalid(long offset) =>
        $"{Begins(offset)} a packet with a time before the start of the capture, or beyond any; the record was kept with the "
        + "time of the record before.";

    public static string PcapngWithoutTime(long offset) =>
        $"{Begins(offset)} a Simple Packet Block, which carries no time; records of such blocks were kept with the time of "
        + "the record before. Write Enhanced Packet Blocks.";

    public static string PcapngInterfaceMissing(long offset, uint index) =>
        $"{Begins(offset)} a packet of interface {index}, which the section does not describe; it was left out.";

    public static string PcapngInterfacesTooMany(long offset) =>
        $"{Begins(offset)} the description of a section's 1001st interface; 1000 are read, and packets of the others are left out.";

    public static string PcapngLinkType(long offset, string label, ushort linkType) =>
        $"{label} at {At(offset)} has link type {linkType}; expected 147 (LINKTYPE_USER0) with records as captures/FORMAT.md defines "
        + "them. Its packets were left out. Other interfaces are read.";

    public static string PcapngNameInvalid(long offset) =>
        $"The interface described at {At(offset)} has a name of no or more than 1024 bytes, or none in UTF-8; it counts as unnamed.";

    public static string PcapngTimeOptionInvalid(long offset) =>
        $"The interface described at {At(offset)} has an if_tsresol or if_tsoffset of a wrong length; microseconds since 1970 were taken.";

    public static string PcapngOptionsBroken(long offset) =>
        $"The options of the interface described at {At(offset)} break off; those before were taken.";

    public static string PcapngHeaderAt(long offset) => $"In the header of the interface at byte {offset}: ";

    public static string PcapngHeaderInvalid(long offset) =>
        $"The comment of the interface described at {Begins(offset)} as a capture's header but is none; nothing of it was taken. "
        + "Expected one line, for example {\"capture\":1,\"port\":\"C1\",\"in_use\":[\"C1\"]}.";

    public static string PcapngSectionDiffers(long offset, string label) =>
        $"{label} at {At(offset)}, in a further section, has another header than the capture before; its records were not "
        + "read. Put each capture into a file of its own.";

    public static string PcapngDrops(long offset, uint index, ulong lost) =>
        $"The recorder says at {At(offset)} that it lost {lost} packets of interface {index}. Record again if a step is missing.";

    public static string PcapngBlocksUnknown(long count, uint type) =>
        $"{count} blocks of types that are not known here were passed over; the first is of type 0x{type:X8}.";

    public static string PcapngPortMissing(string wanted) =>
        $"No port of the file is named {Name(wanted)}, and it has several. Give --port with one of the names below.";

    public static string PcapngPortUnread(string name, long records, string? read) =>
        $"{records} records of {Name(name)} were not read: a capture is of one port"
        + (read is null ? "" : $", here {Name(read)}") + $". Give --port {Name(name)} to read them.";

    public static string RecordTooShort(long offset) =>
        $"{Begins(offset)} a packet too short for a record; it was left out.";

    public static string RecordInvalid(long offset) =>
        $"{Begins(offset)} a packet that is no record of its kind, as captures/FORMAT.md lays them out; it was left out.";

    public static string RecordVersion(long offset, byte version) =>
        $"{Begins(offset)} a packet that is a record of version {version}; 1 is known here. It was left out.";

    public static string RecordKindUnknown(long offset, byte kind) =>
        $"{Begins(offset)} a record of kind {kind}; 1 to 4 are known here. It was left out.";

    public static string MembersInvalid(long offset) =>
        $"The members that the record at {At(offset)} carries are no JSON object on one line; the record was kept without them.";

    private static string Begins(long offset) => string.Create(CultureInfo.InvariantCulture, $"At byte {offset} begins");

    private static string At(long offset) => string.Create(CultureInfo.InvariantCulture, $"byte {offset}");

    private static string Name(string name) => Excerpt(System.Text.Encoding.UTF8.GetBytes(name), 60);
}
