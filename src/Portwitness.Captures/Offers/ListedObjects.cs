using System.Buffers.Binary;
using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.PowerData;

namespace Portwitness.Captures.Offers;

/// <summary>Makes the message of a capability list of which only the objects are known.</summary>
internal static class ListedObjects
{
    private const ushort KnownOfHeader = 0xF01F;
    private const ushort KnownOfHeaderWithoutCount = 0x801F;
    private const ushort KnownOfExtendedHeader = 0x01FF;
    private const uint KindBits = 0xF000_0000;
    private const int SprHeaderBytes = 2;
    private const int EprHeaderBytes = 4;
    private const int ObjectBytes = 4;

    /// <summary>Hands a list on.</summary>
    /// <param name="sink">Where it goes.</param>
    /// <param name="line">Line of its first object.</param>
    /// <param name="spr">The objects of SPR, in order.</param>
    /// <param name="epr">Those of EPR, from position 8 on.</param>
    /// <param name="isEpr">Whether it is a list of EPR.</param>
    /// <param name="isWhole">Whether these are all objects.</param>
    public static void HandTo(ICaptureSink sink, long line, ReadOnlySpan<CodedOffer> spr, ReadOnlySpan<CodedOffer> epr, bool isEpr, bool isWhole)
    {
        int count = isEpr ? Math.Max(spr.Length, MessageLimits.MaxSprObjects) + epr.Length : spr.Length;
        int start = isEpr ? EprHeaderBytes : SprHeaderBytes;
        byte[] bytes = new byte[start + (ObjectBytes * count)];
        byte[] known = new byte[bytes.Length];
        MessageKind kind = isEpr ? MessageKind.EPRSourceCapabilities : MessageKind.SourceCapabilities;
        bool countIsKnown = !isEpr && isWhole && count <= MessageLimits.MaxSprObjects;
        MessageHeader header = MessageHeader.Create(kind, isEpr ? 0 : Math.Min(count, MessageLimits.MaxSprObjects), 0, false, false, 0);
        BinaryPrimitives.WriteUInt16LittleEndian(bytes, header.Raw);
        BinaryPrimitives.WriteUInt16LittleEndian(known, countIsKnown ? KnownOfHeader : KnownOfHeaderWithoutCount);
        if (isEpr)
        {
            BinaryPrimitives.WriteUInt16LittleEndian(bytes.AsSpan(SprHeaderBytes), ExtendedHeader.Create(false, 0, false, ObjectBytes * count).Raw);
            BinaryPrimitives.WriteUInt16LittleEndian(known.AsSpan(SprHeaderBytes), KnownOfExtendedHeader);
        }

        Write(spr, bytes.AsSpan(start), known.AsSpan(start));
        if (isEpr)
        {
            // Positions that SPR leaves free are zero.
            int free = ObjectBytes * spr.Length;
            int first = ObjectBytes * (count - epr.Length);
            known.AsSpan(start + free, first - free).Fill(byte.MaxValue);
            Write(epr, bytes.AsSpan(start + first), known.AsSpan(start + first));
        }

        sink.OnMessage(new MessageRecord { TimeUs = 0, Line = line, Sop = SopKind.Sop, Bytes = bytes, Known = known });
    }

    /// <summary>From position 8 on an EPR list holds fixed supplies above 20 V and EPR AVS (R3.2v1.1, 6.5.15.1).</summary>
    public static bool IsOfEpr(CodedOffer coded)
    {
        SourcePowerObject offered = new(coded.Word);
        return (coded.Known & KindBits) == KindBits && (offered.Kind == PowerObjectKind.EprAvs
            || (offered.Kind == PowerObjectKind.Fixed && offered.AsFixed().Voltage > Electrical.SprMaximumFixed));
    }

    private static void Write(ReadOnlySpan<CodedOffer> objects, Span<byte> bytes, Span<byte> known)
    {
        for (int index = 0; index < objects.Length; index++)
        {
            BinaryPrimitives.WriteUInt32LittleEndian(bytes[(ObjectBytes * index)..], objects[index].Word);
            BinaryPrimitives.WriteUInt32LittleEndian(known[(ObjectBytes * index)..], objects[index].Known);
        }
    }
}
