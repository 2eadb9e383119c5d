using System.Buffers.Binary;
using Portwitness.Captures;
using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Messages;

namespace Portwitness.Analysis.Profile;

/// <summary>Puts one message into a line for a listing.</summary>
internal static class MessageMeaning
{
    /// <summary>The message with its meaning.</summary>
    public static MessageSummary Summarise(long index, in MessageRecord record, in MessageView view, bool? crcOk)
    {
        ushort headerKnown = record.Known.IsEmpty ? ushort.MaxValue : BinaryPrimitives.ReadUInt16LittleEndian(record.Known);
        return new MessageSummary(
            index, record.TimeUs, record.Sop, view.Header, headerKnown, Convert.ToHexString(record.Bytes),
            record.Known.IsEmpty ? "" : Convert.ToHexString(record.Known), crcOk,
            crcOk == false ? "received with a wrong CRC; not used" : Meaning(record, view));
    }

    private static string Meaning(in MessageRecord record, in MessageView view)
    {
        MessageHeader header = view.Header;
        if (record.Sop != SopKind.Sop)
        {
            return header.SourceOrCablePlug ? "from the cable" : "to the cable";
        }

        if (header.Kind == MessageKind.SourceCapabilities || header.Kind == MessageKind.SinkCapabilities)
        {
            OfferedObject[] objects = new OfferedObject[CapabilityChecker.MostObjects];
            int count = CapabilityChecker.ReadObjects(view, record.Known, objects);
            return string.Join(", ", objects.Take(count).Select(offered => offered.ToText()));
        }

        if (header.Kind == MessageKind.Request && view.CompleteObjects > 0)
        {
            return $"asks for object {new PowerDelivery.Requests.RequestObject(view.ObjectAt(0)).ObjectPosition}";
        }

        return "";
    }
}
