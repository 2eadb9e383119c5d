using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Layout;

namespace Portwitness.PowerDelivery.Headers;

/// <summary>
/// The message header, 16 bits (R3.2v1.1, Table 6.1). Any word is accepted and kept; nothing is judged here.
/// </summary>
/// <remarks>
/// Bits 8 and 5 mean the port's roles on SOP; on SOP' and SOP'' bit 8 means "cable plug" and bit 5 is reserved.
/// <para>
/// <see cref="Extended"/>, <see cref="TypeCode"/> and <see cref="Kind"/> read the bits as R3.x does, whatever
/// <see cref="RevisionCode"/> says. In R2.0 bits 15 and 4 are reserved (from memory; that edition was not at hand), so
/// its messages read the same unless <see cref="SetsBitsReservedInR20"/>.
/// </para>
/// </remarks>
/// <param name="Raw">The word, first byte on the wire lowest.</param>
public readonly record struct MessageHeader(ushort Raw)
{
    private static readonly BitField ExtendedField = BitField.Flag("Extended", 15);
    private static readonly BitField CountField = new("Number of Data Objects", 14, 12);
    private static readonly BitField IdField = new("MessageID", 11, 9);
    private static readonly BitField SenderField = BitField.Flag("Port Power Role", 8).Codes((0, "sink"), (1, "source"));
    private static readonly BitField CablePlugField =
        BitField.Flag("Cable Plug", 8).Codes((0, "from a port"), (1, "from a cable plug or VPD"));

    private static readonly BitField RevisionField = new BitField("Specification Revision", 7, 6)
        .Codes((0, "R1.0, deprecated"), (1, "R2.0"), (2, "R3.x"), (3, "invalid"));
    private static readonly BitField DataRoleField = BitField.Flag("Port Data Role", 5).Codes((0, "UFP"), (1, "DFP"));
    private static readonly BitField TypeField = new BitField("Message Type", 4, 0)
        .Means((word, _) => new MessageHeader((ushort)word).Kind.Name);

    /// <summary>All sixteen bits on SOP.</summary>
    public static BitLayout Layout { get; } = new(
        "Message Header", 16, "R3.2v1.1 Table 6.1",
        ExtendedField, CountField, IdField, SenderField, RevisionField, DataRoleField, TypeField);

    /// <summary>All sixteen bits on SOP' and SOP''.</summary>
    public static BitLayout CablePlugLayout { get; } = new(
        "Message Header, cable plug", 16, "R3.2v1.1 Table 6.1",
        ExtendedField, CountField, IdField, CablePlugField, RevisionField,
        BitField.Reserved(5, 5), TypeField);

    /// <summary>All sixteen bits on SOP in R2.0, from memory.</summary>
    public static BitLayout LayoutR20 { get; } = new(
        "Message Header, R2.0", 16, "R2.0 6.2.1.1 (from memory)",
        BitField.Reserved(15, 15), CountField, IdField, SenderField, RevisionField, DataRoleField,
        BitField.Reserved(4, 4), TypeField with { High = 3 });

    /// <summary>Whether an extended header follows.</summary>
    public bool Extended => ExtendedField.IsSet(Raw);

    /// <summary>Number of Data Objects, 0 to 7.</summary>
    public int ObjectCount => (int)CountField.Get(Raw);

    /// <summary>MessageID, 0 to 7.</summary>
    public int MessageId => (int)IdField.Get(Raw);

    /// <summary>On SOP: the sender is the source. On SOP' and SOP'': the sender is a cable plug.</summary>
    public bool SourceOrCablePlug => SenderField.IsSet(Raw);

    /// <summary>Specification Revision code: 0 R1.0, 1 R2.0, 2 R3.x, 3 invalid.</summary>
    public int RevisionCode => (int)RevisionField.Get(Raw);

    /// <summary>On SOP: the sender is the downstream facing port. Reserved on SOP' and SOP''.</summary>
    public bool DownstreamFacing => DataRoleField.IsSet(Raw);

    /// <summary>Message Type code, 0 to 31; what it means depends on <see cref="Kind"/>.</summary>
    public int TypeCode => (int)TypeField.Get(Raw);

    /// <summary>Class and type together; worked out once, as everything that looks at a message asks for it.</summary>
    public MessageKind Kind { get; } =
        MessageKind.From(ExtendedField.IsSet(Raw), (int)CountField.Get(Raw), (int)TypeField.Get(Raw));

    /// <summary>Whether bit 15 or bit 4 is set, to which R2.0 gives no meaning (from memory).</summary>
    public bool SetsBitsReservedInR20 => (Raw & LayoutR20.ReservedMask) != 0;

    /// <summary>The layout that the SOP kind selects.</summary>
    public static BitLayout LayoutFor(SopKind sop) => sop == SopKind.Sop ? Layout : CablePlugLayout;

    /// <summary>Builds a header.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A value does not fit its field.</exception>
    /// <exception cref="ArgumentException">A control message with objects, or a data message without.</exception>
    public static MessageHeader Create(
        MessageKind kind, int objectCount, int messageId, bool sourceOrCablePlug, bool downstreamFacing, int revisionCode)
    {
        if (MessageKind.From(kind.Class == MessageClass.Extended, objectCount, kind.Code) != kind)
        {
            throw new ArgumentException($"{objectCount} objects do not make {kind} a {kind.Class} message.", nameof(objectCount));
        }

        uint word = ExtendedField.SetFlag(0, kind.Class == MessageClass.Extended);
        word = CountField.SetScaled(word, objectCount);
        word = IdField.SetScaled(word, messageId);
        word = SenderField.SetFlag(word, sourceOrCablePlug);
        word = RevisionField.SetScaled(word, revisionCode);
        word = DataRoleField.SetFlag(word, downstreamFacing);
        return new MessageHeader((ushort)TypeField.SetScaled(word, kind.Code));
    }
}
