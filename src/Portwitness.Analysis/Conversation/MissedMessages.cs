using Portwitness.Captures;
using Portwitness.PowerDelivery.Framing;

namespace Portwitness.Analysis.Conversation;

/// <summary>
/// Whether messages of one sender on SOP can have been missed by the recorder: a wrong CRC, bits that were not shown, or
/// MessageIDs that do not follow each other.
/// </summary>
internal sealed class MissedMessages
{
    private const ushort IdBits = 0x0E00;

    private readonly MessageIdWatch _watch = new();

    /// <summary>Whether any can have been missed since the last <see cref="Forget"/>.</summary>
    public bool Any { get; private set; }

    /// <summary>A message of the sender; with a wrong CRC it only says that something was there.</summary>
    public void OnMessage(in HeardMessage message)
    {
        if (message.CrcOk == false || (message.HeaderKnown & IdBits) != IdBits)
        {
            Any = true;
            _watch.Reset();
        }
        else
        {
            Any |= _watch.Misses(message.View.Header);
        }
    }

    /// <summary>A frame that broke: it may have been any message of the sender, unless it was not on SOP.</summary>
    public void OnBroken(BrokenFrameRecord frame)
    {
        if (frame.Sop is null or SopKind.Sop)
        {
            Any = true;
            _watch.Reset();
        }
    }

    /// <summary>A reset, an attach or a detach: what was in force is so no longer.</summary>
    public void OnReset()
    {
        _watch.Reset();
        Any = true;
    }

    /// <summary>What counts begins with this message.</summary>
    public void Forget() => Any = false;
}
