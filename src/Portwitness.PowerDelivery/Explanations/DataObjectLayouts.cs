using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Layout;
using Portwitness.PowerDelivery.Messages;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.PowerDelivery.Requests;
using Portwitness.PowerDelivery.VendorDefined;

namespace Portwitness.PowerDelivery.Explanations;

/// <summary>How the data objects of a message are laid out (R3.2v1.1, Table 6.6).</summary>
public static class DataObjectLayouts
{
    private const int FirstCodeOfR3x = 2;
    private const ushort RevisionBits = 0x00C0;

    private static readonly Dictionary<MessageKind, BitLayout> FirstObjects = new()
    {
        [MessageKind.BIST] = BistObject.Layout,
        [MessageKind.BatteryStatus] = BatteryStatusObject.Layout,
        [MessageKind.Alert] = AlertObject.Layout,
        [MessageKind.GetCountryInfo] = GetCountryInfoObject.Layout,
        [MessageKind.EnterUSB] = EnterUsbObject.Layout,
        [MessageKind.EPRMode] = EprModeObject.Layout,
        [MessageKind.SourceInfo] = SourceInfoObject.Layout,
        [MessageKind.Revision] = RevisionObject.Layout,
    };

    /// <summary>All 32 bits of an object without a known meaning.</summary>
    public static BitLayout UnknownLayout { get; } = new(
        "Data Object", 32, "R3.2v1.1 6.4", new BitField("Unknown", 31, 0));

    /// <summary>The layout of a message's first object; null for requests, lists and vendor's messages, which say it themselves.</summary>
    public static BitLayout? OfFirst(MessageKind kind) => FirstObjects.GetValueOrDefault(kind);

    /// <summary>The layout of a data object.</summary>
    /// <param name="message">The message.</param>
    /// <param name="index">The object, counted from 0; it is there.</param>
    /// <param name="sop">Cable plugs answer with other objects than ports.</param>
    /// <param name="selected">The object that a request selects; null when it is not known.</param>
    /// <param name="headerKnown">Bits of the header that were shown; without those of the revision it counts as R3.x.</param>
    /// <exception cref="ArgumentOutOfRangeException">No such object.</exception>
    public static BitLayout For(
        in MessageView message, int index, SopKind sop, SourcePowerObject? selected = null,
        ushort headerKnown = ushort.MaxValue)
    {
        MessageKind kind = message.Header.Kind;
        uint word = message.ObjectAt(index);
        if (VendorDefinedView.TryRead(message, sop, out VendorDefinedView vendor))
        {
            return vendor.LayoutAt(index);
        }

        if (kind == MessageKind.SourceCapabilities || (kind == MessageKind.EPRRequest && index == 1))
        {
            return new SourcePowerObject(word).Layout;
        }

        if (kind == MessageKind.SinkCapabilities)
        {
            return new SinkPowerObject(word).Layout;
        }

        if (index > 0)
        {
            return UnknownLayout;
        }

        if (kind == MessageKind.EPRRequest && message.CompleteObjects > 1)
        {
            selected = new SourcePowerObject(message.ObjectAt(1));
        }

        bool beforeR3x = (headerKnown & RevisionBits) == RevisionBits && message.Header.RevisionCode < FirstCodeOfR3x;
        return kind == MessageKind.Request || kind == MessageKind.EPRRequest
            ? OfRequest(new RequestObject(word), selected, beforeR3x)
            : OfFirst(kind) ?? UnknownLayout;
    }

    // A header that says R3.x leaves R3.0 open; bits 31 and 22 are zero there, so that the later layout reads the same.
    private static BitLayout OfRequest(RequestObject request, SourcePowerObject? selected, bool beforeR3x) => beforeR3x
        ? request.LayoutBeforeR31For(selected?.Kind ?? PowerObjectKind.Reserved)
        : RequestObject.LayoutFor(selected?.Kind ?? PowerObjectKind.Reserved);
}
