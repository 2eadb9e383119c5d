using System.Buffers.Binary;
using System.Collections.Immutable;
using System.Globalization;
using Portwitness.Analysis.Phrases;
using Portwitness.Captures;
using Portwitness.Following.Contracts;
using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.Messages;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.PowerDelivery.VendorDefined;

namespace Portwitness.Analysis.Conversation;

/// <summary>Puts one message into a line. What it does not put into words it shows as bytes, so that nothing is hidden.</summary>
internal static class MessageMeaning
{
    /// <summary>Said of a message that was received wrongly.</summary>
    public const string WrongCrc = "received with a wrong CRC; not used";

    /// <summary>The message for a listing.</summary>
    public static MessageSummary Summarise(
        long index, in MessageRecord record, in MessageView view, bool? crcOk, string meaning)
    {
        ushort headerKnown = record.Known.IsEmpty ? ushort.MaxValue : BinaryPrimitives.ReadUInt16LittleEndian(record.Known);
        return new MessageSummary(
            index, record.TimeUs, record.Sop, view.Header, headerKnown, Convert.ToHexString(record.Bytes),
            record.Known.IsEmpty ? "" : Convert.ToHexString(record.Known), crcOk,
            meaning);
    }

    /// <summary>What it says, in a line; requests are read against the list in force.</summary>
    public static string Of(in MessageRecord record, in MessageView view, ImmutableArray<OfferedObject> inForce)
    {
        MessageKind kind = view.Header.Kind;
        if (view.Payload.IsEmpty)
        {
            return "";
        }

        if (!record.Known.IsEmpty && !record.Known[^view.Payload.Length..].ContainsAnyExcept((byte)0))
        {
            return "content not shown";
        }

        if (record.Sop == SopKind.Sop && kind.IsCapabilityList && view.ExtendedHeader is null or { Chunked: false })
        {
            OfferedObject[] objects = new OfferedObject[MessageLimits.MaxExtendedObjects];
            int count = CapabilityChecker.ReadObjects(view, record.Known, objects);
            return string.Join(", ", objects.Take(count).Select(offered => offered.ToText()));
        }

        if (view.ExtendedHeader is { } extended)
        {
            return extended.RequestChunk ? $"asks for chunk {extended.ChunkNumber}"
                : extended.Chunked ? $"chunk {extended.ChunkNumber} of {extended.DataSize} bytes: {Convert.ToHexString(view.Data)}"
                : Convert.ToHexString(view.Data);
        }

        return view.CompleteObjects == 0 ? Convert.ToHexString(view.Payload) : Data(kind, view, Known(record), inForce);
    }

    private static uint Known(in MessageRecord record) =>
        record.Known.IsEmpty ? uint.MaxValue : BinaryPrimitives.ReadUInt32LittleEndian(record.Known[2..]);

    private static string Data(
        MessageKind kind, in MessageView view, uint known, ImmutableArray<OfferedObject> inForce)
    {
        uint first = view.ObjectAt(0);
        if (kind == MessageKind.Request || kind == MessageKind.EPRRequest)
        {
            return Request(RequestReading.Of(first, known, inForce));
        }

        if (kind == MessageKind.VendorDefined)
        {
            VdmHeader header = new(first);
            string answer = header.Structured
                ? $"{header.CommandName} {header.CommandType.ToString().ToUpperInvariant()}, SVID 0x{header.VendorId:X4}"
                : $"vendor 0x{header.VendorId:X4}";
            return view.CompleteObjects == 1 ? answer : $"{answer}: {Convert.ToHexString(view.Payload[4..])}";
        }

        return kind == MessageKind.EPRMode ? Mode(new EprModeObject(first))
            : kind == MessageKind.Revision ? new RevisionObject(first).ToString()
            : kind == MessageKind.SourceInfo ? Info(new SourceInfoObject(first))
            : Convert.ToHexString(view.Payload);
    }

    private static string Request(RequestReading request)
    {
        string?[] amounts = [request.Voltage?.ToString(), request.Current?.ToString(), request.StatedPower?.ToString()];
        string asked = string.Join(' ', amounts.OfType<string>());
        string position = request.ObjectPosition?.ToString(CultureInfo.InvariantCulture) ?? "?";
        return $"asks for object {position}: {(asked.Length == 0 ? $"0x{request.Raw:X8}" : asked)}"
            + (request.CapabilityMismatch == true ? ", wants more" : "");
    }

    private static string Mode(EprModeObject mode) => mode.Data == 0 ? mode.ActionName : $"{mode.ActionName} ({mode.Data})";

    private static string Info(SourceInfoObject info) =>
        $"maximum {info.MaximumPdp}, present {info.PresentPdp}, reported {info.ReportedPdp}, "
        + (info.Guaranteed ? "guaranteed" : "managed");
}
