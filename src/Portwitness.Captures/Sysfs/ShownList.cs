using System.Buffers.Binary;
using Portwitness.Captures.Input;
using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Limits;

namespace Portwitness.Captures.Sysfs;

/// <summary>The objects of one capability list by position, and the message that they were.</summary>
/// <param name="isSource">Source_Capabilities; Sink_Capabilities otherwise.</param>
/// <param name="faults">Where faults go.</param>
internal sealed class ShownList(bool isSource, FaultLog faults)
{
    private const ushort KnownOfHeader = 0x801F;
    private const ushort CountBits = 0x7000;
    private const ushort RevisionBits = 0x00C0;

    private readonly ShownObject?[] _objects = new ShownObject?[MessageLimits.MaxSprObjects];
    private long _firstLine;

    /// <summary>Whether any object was shown.</summary>
    public bool IsEmpty => _firstLine == 0;

    /// <summary>Whether an object proves that the kernel leaves no type of object out.</summary>
    public bool ProvesAllAreShown => Array.Exists(_objects, shown => shown is { ProvesAllAreShown: true });

    private int Count => Array.FindLastIndex(_objects, shown => shown is not null) + 1;

    /// <summary>Takes one attribute of one object.</summary>
    public void AddLine(long line, in SysfsLine shown)
    {
        if (shown.Position is < 1 or > MessageLimits.MaxSprObjects)
        {
            faults.Report(line, 0, FaultCodes.SysfsPositionInvalid, FaultText.SysfsPositionInvalid(shown.Path));
            return;
        }

        _firstLine = IsEmpty ? line : _firstLine;
        (_objects[shown.Position - 1] ??= new ShownObject(faults)).AddLine(line, shown);
    }

    /// <summary>Whether another list shows the same.</summary>
    public bool IsSame(ShownList other) => _objects.Select(Shown).SequenceEqual(other._objects.Select(Shown));

    /// <summary>Hands the message on, if there is one.</summary>
    /// <param name="sink">Where it goes.</param>
    /// <param name="revisionCode">The header's Specification Revision, when known.</param>
    /// <param name="allAreShown">Whether the kernel leaves no type of object out.</param>
    public void HandTo(ICaptureSink sink, int? revisionCode, bool allAreShown)
    {
        if (IsEmpty)
        {
            return;
        }

        int count = Count;
        byte[] bytes = new byte[2 + (4 * count)];
        byte[] known = new byte[bytes.Length];
        MessageKind kind = isSource ? MessageKind.SourceCapabilities : MessageKind.SinkCapabilities;
        MessageHeader header = MessageHeader.Create(kind, count, 0, false, false, revisionCode ?? 0);

        // Objects behind the last directory may be of a type that the kernel leaves out; then the length is not known.
        bool countIsKnown = allAreShown || count == MessageLimits.MaxSprObjects;
        BinaryPrimitives.WriteUInt16LittleEndian(bytes, header.Raw);
        BinaryPrimitives.WriteUInt16LittleEndian(
            known,
            (ushort)(KnownOfHeader | (countIsKnown ? CountBits : 0) | (revisionCode is null ? 0 : RevisionBits)));
        for (int index = 0; index < count; index++)
        {
            if (_objects[index] is not { Word: var word })
            {
                faults.Report(_firstLine, 0, FaultCodes.SysfsObjectMissing, FaultText.SysfsObjectMissing(isSource, index + 1));
                continue;
            }

            BinaryPrimitives.WriteUInt32LittleEndian(bytes.AsSpan(2 + (4 * index)), word.Value);
            BinaryPrimitives.WriteUInt32LittleEndian(known.AsSpan(2 + (4 * index)), word.Known);
        }

        sink.OnMessage(new MessageRecord { TimeUs = 0, Line = _firstLine, Sop = SopKind.Sop, Bytes = bytes, Known = known });
    }

    private static (bool IsThere, ShownWord Word) Shown(ShownObject? shown) => (shown is not null, shown?.Word ?? default);
}
