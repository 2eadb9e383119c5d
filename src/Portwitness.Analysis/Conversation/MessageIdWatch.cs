using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.Messages;

namespace Portwitness.Analysis.Conversation;

/// <summary>
/// Notices that messages on SOP are missing from a capture: MessageIDs count up by one for each sender (R3.2v1.1, 6.7.1).
/// </summary>
internal sealed class MessageIdWatch
{
    private readonly int[] _last = [-1, -1];

    /// <summary>Takes a message that was received rightly; true when one before it is missing.</summary>
    public bool Misses(MessageHeader header)
    {
        if (header.Kind == MessageKind.GoodCRC)
        {
            return false;
        }

        ref int last = ref _last[header.SourceOrCablePlug ? 1 : 0];
        int id = header.MessageId;
        bool misses = last >= 0 && id != last && id != ((last + 1) & MessageLimits.MaxMessageId);
        last = id;
        if (header.Kind == MessageKind.SoftReset || header.Kind == MessageKind.PRSwap || header.Kind == MessageKind.FRSwap)
        {
            Reset();
        }

        return misses && header.Kind != MessageKind.SoftReset;
    }

    /// <summary>Counting begins anew, after a reset or an attach.</summary>
    public void Reset() => (_last[0], _last[1]) = (-1, -1);
}
