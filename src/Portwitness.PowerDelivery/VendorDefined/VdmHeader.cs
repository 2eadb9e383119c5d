using Portwitness.PowerDelivery.Layout;

namespace Portwitness.PowerDelivery.VendorDefined;

/// <summary>What a structured vendor defined message does (R3.2v1.1, Table 6.29).</summary>
public enum VdmCommandType
{
    /// <summary>REQ.</summary>
    Request,

    /// <summary>ACK.</summary>
    Ack,

    /// <summary>NAK.</summary>
    Nak,

    /// <summary>BUSY.</summary>
    Busy,
}

/// <summary>
/// The first object of a Vendor_Defined message (R3.2v1.1, 6.4.4; structured: Table 6.29).
/// Any word is accepted and kept.
/// </summary>
/// <remarks>All but <see cref="VendorId"/> and <see cref="VendorUse"/> mean something when <see cref="Structured"/> only.</remarks>
/// <param name="Raw">The word.</param>
public readonly record struct VdmHeader(uint Raw)
{
    /// <summary>The SVID of the standard's own commands (R3.2v1.1, Table 6.29).</summary>
    public const int PdSid = 0xFF00;

    private static readonly BitField VendorIdField = new BitField("SVID or VID", 31, 16)
        .Means(raw => raw == PdSid ? "PD SID, the standard's own" : null);

    private static readonly BitField StructuredField = BitField.Flag("VDM Type", 15).Codes((0, "unstructured"), (1, "structured"));
    private static readonly BitField MajorField =
        new BitField("Structured VDM Version (Major)", 14, 13).Codes((0, "1.x"), (1, "2.x"));

    private static readonly BitField MinorField = new BitField("Structured VDM Version (Minor)", 12, 11)
        .Means((word, raw) => new VdmHeader(word).VersionText is var version && version == "reserved"
            ? $"reserved ({raw})"
            : version);

    private static readonly BitField PositionField = new("Object Position", 10, 8);
    private static readonly BitField CommandTypeField =
        new BitField("Command Type", 7, 6).Codes((0, "REQ"), (1, "ACK"), (2, "NAK"), (3, "BUSY"));

    private static readonly BitField CommandField =
        new BitField("Command", 4, 0).Means((word, _) => new VdmHeader(word).CommandName);

    private static readonly BitField VendorUseField = new("Vendor use", 14, 0);

    /// <summary>All 32 bits of a structured header.</summary>
    public static BitLayout StructuredLayout { get; } = new(
        "Structured VDM Header", 32, "R3.2v1.1 Table 6.29",
        VendorIdField, StructuredField, MajorField, MinorField, PositionField, CommandTypeField,
        BitField.Reserved(5, 5), CommandField);

    /// <summary>All 32 bits of an unstructured header.</summary>
    public static BitLayout UnstructuredLayout { get; } = new(
        "Unstructured VDM Header", 32, "R3.2v1.1 6.4.4", VendorIdField, StructuredField, VendorUseField);

    /// <summary>The layout that bit 15 selects.</summary>
    public BitLayout Layout => Structured ? StructuredLayout : UnstructuredLayout;

    /// <summary>SVID of a structured message, VID of an unstructured one.</summary>
    public int VendorId => (int)VendorIdField.Get(Raw);

    /// <summary>Whether the rest of the word has the standard's fields.</summary>
    public bool Structured => StructuredField.IsSet(Raw);

    /// <summary>0 is version 1.0, 1 is version 2.x; 2 and 3 are invalid.</summary>
    public int MajorVersionCode => (int)MajorField.Get(Raw);

    /// <summary>Of version 2.x: 0 is 2.0, 1 is 2.1.</summary>
    public int MinorVersionCode => (int)MinorField.Get(Raw);

    /// <summary>Object Position, 0 to 7.</summary>
    public int ObjectPosition => (int)PositionField.Get(Raw);

    /// <summary>Request or answer.</summary>
    public VdmCommandType CommandType => (VdmCommandType)CommandTypeField.Get(Raw);

    /// <summary>"REQ", "ACK", "NAK" or "BUSY".</summary>
    public string CommandTypeName => CommandTypeField.Describe(Raw);

    /// <summary>Command, 0 to 31.</summary>
    public int Command => (int)CommandField.Get(Raw);

    /// <summary>The standard's name of the command; "reserved (7)" and "SVID specific (16)" for others.</summary>
    public string CommandName => Command switch
    {
        1 => "Discover Identity",
        2 => "Discover SVIDs",
        3 => "Discover Modes",
        4 => "Enter Mode",
        5 => "Exit Mode",
        6 => "Attention",
        >= 16 => $"SVID specific ({Command})",
        _ => $"reserved ({Command})",
    };

    /// <summary>"1.0", "2.0" or "2.1"; "reserved" for other codes.</summary>
    public string VersionText => (MajorVersionCode, MinorVersionCode) switch
    {
        (0, _) => "1.0",
        (1, 0) => "2.0",
        (1, 1) => "2.1",
        _ => "reserved",
    };

    /// <summary>Orders versions: a later one is larger. Version 1.0 has no minor version.</summary>
    public int VersionOrder => MajorVersionCode == 0 ? 0 : (int)((MajorVersionCode * (MinorField.Maximum + 1)) + MinorVersionCode);

    /// <summary>Bits 14 to 0 of an unstructured message.</summary>
    public int VendorUse => (int)VendorUseField.Get(Raw);

    /// <summary>Whether this answers Discover Identity, so that an ID header follows.</summary>
    public bool IsIdentity =>
        Structured && VendorId == PdSid && Command == 1 && CommandType == VdmCommandType.Ack;

    /// <summary>A structured header.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A value does not fit its field.</exception>
    public static VdmHeader CreateStructured(
        int svid, int majorVersionCode, int minorVersionCode, VdmCommandType commandType, int command, int objectPosition = 0)
    {
        uint word = StructuredField.SetFlag(VendorIdField.SetScaled(0, svid), true);
        word = MajorField.SetScaled(word, majorVersionCode);
        word = MinorField.SetScaled(word, minorVersionCode);
        word = PositionField.SetScaled(word, objectPosition);
        word = CommandTypeField.SetScaled(word, (int)commandType);
        return new VdmHeader(CommandField.SetScaled(word, command));
    }

    /// <summary>An unstructured header.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A value does not fit its field.</exception>
    public static VdmHeader CreateUnstructured(int vid, int vendorUse) =>
        new(VendorUseField.SetScaled(VendorIdField.SetScaled(0, vid), vendorUse));
}
