using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.Messages;

namespace Portwitness.Synthesis;

// EPR mode and chunked messages.
internal sealed partial class Dialogue
{
    private const int CableIsNotEpr = 1;

    /// <summary>
    /// EPR_Mode Enter, Enter Acknowledged, the cable's identity where it is not known, Enter Succeeded, and the EPR list
    /// (R3.2v1.1, 6.4.10.1). A cable that is not for EPR, or a reason that is given, makes it fail.
    /// </summary>
    public void EnterEpr(CapabilitySet set, int sinkWatts, int? failure)
    {
        Say(Sender.Sink, MessageKind.EPRMode, EprModeObject.Create(EprModeAction.Enter, sinkWatts).Raw);
        Say(Sender.Source, MessageKind.EPRMode, EprModeObject.Create(EprModeAction.EnterAcknowledged).Raw);
        if (!_cableAnswered && _script.Cable.Captive != true)
        {
            DiscoverCable(null);
        }

        bool suits = _script.Cable.Epr && (_cableAnswered || _script.Cable.Captive == true);
        if ((failure ?? (suits ? null : CableIsNotEpr)) is { } reason)
        {
            Say(Sender.Source, MessageKind.EPRMode, EprModeObject.Create(EprModeAction.EnterFailed, reason).Raw);
            return;
        }

        Say(Sender.Source, MessageKind.EPRMode, EprModeObject.Create(EprModeAction.EnterSucceeded).Raw);
        (_eprMode, _offered) = (true, set);
        SendBlock(Sender.Source, MessageKind.EPRSourceCapabilities, BytesOf([.. set.Epr]));
    }

    /// <summary>EPR_Mode Exit; the source's next capabilities are those of SPR mode.</summary>
    public void ExitEpr(Sender sender)
    {
        Say(sender, MessageKind.EPRMode, EprModeObject.Create(EprModeAction.Exit).Raw);
        _eprMode = false;
    }

    /// <summary>EPR_KeepAlive and its answer (R3.2v1.1, Table 6.67).</summary>
    public void KeepAlive()
    {
        ExtendedControl(Sender.Sink, 3);
        ExtendedControl(Sender.Source, 4);
    }

    /// <summary>Sends a data block in chunks; each but the first is asked for (R3.2v1.1, 6.2.1.2).</summary>
    public void SendBlock(Sender sender, MessageKind kind, ReadOnlySpan<byte> block)
    {
        Sender receiver = sender == Sender.Source ? Sender.Sink : Sender.Source;
        const int chunkBytes = MessageLimits.MaxExtendedMsgChunkLen;
        for (int chunk = 0; chunk == 0 || chunk * chunkBytes < block.Length; chunk++)
        {
            if (chunk > 0)
            {
                SendChunk(receiver, kind, ExtendedHeader.Create(true, chunk, true, 0), [], Gaps.ChunkReceiverRequest);
            }

            ExtendedHeader header = ExtendedHeader.Create(true, chunk, false, block.Length);
            ReadOnlySpan<byte> data = block[(chunk * chunkBytes)..Math.Min(block.Length, (chunk + 1) * chunkBytes)];
            bool again = _line.Suffer(MishapKind.RepeatChunk, chunk) is not null;
            _line.Unrecorded = _line.Suffer(MishapKind.DropChunk, chunk) is not null;
            SendChunk(sender, kind, header, data, chunk == 0 ? NextGap() : Gaps.ChunkReceiverResponse);
            _line.Unrecorded = false;
            if (again)
            {
                SendChunk(sender, kind, header, data, Gaps.ChunkReceiverResponse);
            }
        }
    }

    // Two bytes (R3.2v1.1, Table 6.66): one chunk, which mishaps of chunks leave alone.
    private void ExtendedControl(Sender sender, byte type) => SendChunk(
        sender, MessageKind.ExtendedControl, ExtendedHeader.Create(true, 0, false, 2), [type, 0], NextGap());

    private void SendChunk(Sender sender, MessageKind kind, ExtendedHeader header, ReadOnlySpan<byte> data, long gapUs)
    {
        // Filled up with zeroes to whole words, the extended header counted.
        Span<byte> payload = stackalloc byte[(2 + data.Length + 3) / 4 * 4];
        payload.Clear();
        payload[0] = (byte)header.Raw;
        payload[1] = (byte)(header.Raw >> 8);
        data.CopyTo(payload[2..]);
        _line.Send(SopKind.Sop, sender, kind, payload, gapUs);
    }
}
