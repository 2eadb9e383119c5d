using System.Collections.Immutable;
using Portwitness.Captures;
using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Messages;
using Portwitness.PowerDelivery.PowerData;

namespace Portwitness.Analysis.Conversation;

/// <summary>
/// Keeps the lines of messages that come again and again, as lists and the requests of a PPS contract do. A line depends on the
/// message's bytes, its SOP kind and the list in force, and on nothing else.
/// </summary>
internal sealed class MeaningCache
{
    private const int Places = 256;
    private const int MaxBytes = 64;

    private readonly Kept?[] _kept = new Kept?[Places];

    /// <summary>What a message says, in a line.</summary>
    public string Find(in MessageRecord record, in MessageView view, ImmutableArray<OfferedObject> inForce)
    {
        if (view.Payload.IsEmpty || !record.Known.IsEmpty || record.Bytes.Length > MaxBytes)
        {
            return MessageMeaning.Of(record, view, inForce);
        }

        ref Kept? place = ref _kept[(MessageCrc.Of(record.Bytes) + (uint)record.Sop) % Places];
        if (place is null || place.Sop != record.Sop || place.InForce != inForce || !record.Bytes.SequenceEqual(place.Bytes))
        {
            place = new Kept(record.Bytes.ToArray(), record.Sop, inForce, MessageMeaning.Of(record, view, inForce));
        }

        return place.Meaning;
    }

    // Equal arrays are the same array: a list in force is replaced and never changed.
    private sealed record Kept(byte[] Bytes, SopKind Sop, ImmutableArray<OfferedObject> InForce, string Meaning);
}
