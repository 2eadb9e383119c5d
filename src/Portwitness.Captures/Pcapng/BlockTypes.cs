namespace Portwitness.Captures.Pcapng;

/// <summary>Numbers of pcapng (draft-ietf-opsawg-pcapng): block types, option codes, the link type.</summary>
internal static class BlockTypes
{
    public const uint InterfaceDescription = 1;
    public const uint ObsoletePacket = 2;
    public const uint SimplePacket = 3;
    public const uint NameResolution = 4;
    public const uint InterfaceStatistics = 5;
    public const uint EnhancedPacket = 6;
    public const uint JournalExport = 9;
    public const uint DecryptionSecrets = 10;
    public const uint Custom = 0x00000BAD;
    public const uint CustomNotToCopy = 0x40000BAD;

    /// <summary>The same in both byte orders; also proof that no text conversion of line ends damaged the file.</summary>
    public const uint SectionHeader = 0x0A0D0D0A;

    public const uint ByteOrderMagic = 0x1A2B3C4D;

    /// <summary>LINKTYPE_USER0: for private use; here records as captures/FORMAT.md defines them.</summary>
    public const ushort LinkType = 147;

    public const ushort EndOfOptions = 0;
    public const ushort Comment = 1;
    public const ushort UserApplication = 4;
    public const ushort InterfaceName = 2;
    public const ushort TimeResolution = 9;
    public const ushort TimeOffset = 14;
    public const ushort InterfaceDrops = 5;

    /// <summary>Types that are known and say nothing about a port's records.</summary>
    public static bool IsPassedOver(uint type) => type
        is NameResolution or JournalExport or DecryptionSecrets or Custom or CustomNotToCopy;
}
