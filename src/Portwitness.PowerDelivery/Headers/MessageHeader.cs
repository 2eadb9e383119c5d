using Portwitness.PowerDelivery.Layout;
using Portwitness.PowerDelivery.Messages;

namespace Portwitness.PowerDelivery.Headers;

/// <summary>
/// The message header, 16 bits (R3.2v1.1, Table 6.1). Any word is accepted and kept; nothing is judged here.
/// </summary>
/// <remarks>
/// The sender's bit means the port power role on SOP and "cable plug" on SOP' and SOP''; read it with the SOP kind.
/// In R2.0 bit 15 and bit 4 are reserved.
/// </remarks>
/// <param name="Raw">The word, first byte on the wire lowest.</param>
public readonly record struct MessageHeader(ushort Raw)
{
    private static readonly BitField ExtendedField = BitField.Flag("Extended", 15);
    private static readonly BitField CountField = new("Number of Data Objects", 14, 12);
    private static readonly BitField IdField = new("MessageID", 11, 9);
    private static readonly BitField SenderField = BitField.Flag("Port Power Role / Cable Plug", 8);
    private static readonly BitField RevisionField = new("Specification Revision", 7, 6);
    private static readonly BitField DataRoleField = BitField.Flag("Port Data Role", 5);
    private static readonly BitField TypeField = new("Message Type", 4, 0);

    /// <summary>All sixteen bits.</summary>
    public static BitLayout Layout { get; } = new(
        "Message Header", 16, "R3.2v1.1 Table 6.1",
        ExtendedField, CountField, IdField, SenderField, RevisionField, DataRoleField, TypeField);

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

    /// <summary>Class and type together.</summary>
    public MessageKind Kind => MessageKind.From(Extended, ObjectCount, TypeCode);

    /// <summary>Builds a header.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A value does not fit its field.</exception>
    public static MessageHeader Create(
        MessageKind kind, int objectCount, int messageId, bool sourceOrCablePlug, bool downstreamFacing, int revisionCode)
    {
        uint word = ExtendedField.SetFlag(0, kind.Class == MessageClass.Extended);
        word = CountField.SetScaled(word, objectCount);
        word = IdField.SetScaled(word, messageId);
        word = SenderField.SetFlag(word, sourceOrCablePlug);
        word = RevisionField.SetScaled(word, revisionCode);
        word = DataRoleField.SetFlag(word, downstreamFacing);
        return new MessageHeader((ushort)TypeField.SetScaled(word, kind.Code));
    }
}
