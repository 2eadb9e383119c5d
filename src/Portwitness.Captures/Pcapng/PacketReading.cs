using Portwitness.Captures.Input;

namespace Portwitness.Captures.Pcapng;

/// <summary>Takes the three kinds of packet block apart and hands the chosen port's records on with their time.</summary>
internal sealed class PacketReading(RecordReading records, PortSelection ports, FaultLog faults)
{
    private const int EnhancedBytes = 20;
    private const int ObsoleteBytes = 20;
    private const int SimpleBytes = 4;
    private const int StatisticsBytes = 12;

    private long _packets;
    private long _timeUs;
    private bool _simpleReported;

    /// <summary>Begins a section.</summary>
    public void BeginSection() => _simpleReported = false;

    /// <summary>An Enhanced Packet Block (4.3 of the draft).</summary>
    public void ReadEnhanced(PcapngBlock body, long offset)
    {
        _packets++;
        if (body.Length < EnhancedBytes)
        {
            TooShort(offset);
        }
        else if (ports.Select(body.U32(0), offset, _packets) is { } port)
        {
            Read(port, body, EnhancedBytes, Stamp(body), body.U32(12), body.U32(16), offset);
        }
    }

    /// <summary>The obsolete Packet Block (appendix A of the draft).</summary>
    public void ReadObsolete(PcapngBlock body, long offset)
    {
        _packets++;
        if (body.Length < ObsoleteBytes)
        {
            TooShort(offset);
        }
        else if (ports.Select(body.U16(0), offset, _packets) is { } port)
        {
            Read(port, body, ObsoleteBytes, Stamp(body), body.U32(12), body.U32(16), offset);
        }
    }

    /// <summary>A Simple Packet Block (4.4 of the draft): of the first interface, and without a time.</summary>
    public void ReadSimple(PcapngBlock body, long offset)
    {
        _packets++;
        if (body.Length < SimpleBytes)
        {
            TooShort(offset);
        }
        else if (ports.Select(0, offset, _packets) is { } port)
        {
            if (!_simpleReported)
            {
                _simpleReported = true;
                faults.Report(_packets, 0, FaultCodes.TimeInvalid, FaultText.PcapngWithoutTime(offset));
            }

            uint original = body.U32(0);
            uint captured = port.SnapLength == 0 ? original : Math.Min(original, port.SnapLength);
            Read(port, body, SimpleBytes, null, captured, original, offset);
        }
    }

    /// <summary>An Interface Statistics Block (4.6 of the draft): of interest is what the recorder lost.</summary>
    public void ReadStatistics(PcapngBlock body, long offset)
    {
        if (body.Length < StatisticsBytes)
        {
            faults.Report(0, 0, FaultCodes.PcapngBlockInvalid, FaultText.PcapngBlockTooShort(offset));
            return;
        }

        OptionReader options = body.Options(StatisticsBytes);
        while (options.Next())
        {
            if (options.Code == BlockTypes.InterfaceDrops && options.Value.Length == 8 && options.Value.U64(0) is > 0 and ulong lost)
            {
                faults.Report(0, 0, FaultCodes.PcapngDrops, FaultText.PcapngDrops(offset, body.U32(0), lost));
            }
        }
    }

    private static ulong Stamp(PcapngBlock body) => ((ulong)body.U32(4) << 32) | body.U32(8);

    private void TooShort(long offset) =>
        faults.Report(_packets, 0, FaultCodes.PcapngBlockInvalid, FaultText.PcapngBlockTooShort(offset));

    private void Read(
        PcapngInterface port, PcapngBlock body, int start, ulong? stamp, uint captured, uint original, long offset)
    {
        if (captured > (uint)(body.Length - start))
        {
            faults.Report(_packets, 0, FaultCodes.PcapngBlockInvalid, FaultText.PcapngPacketLength(offset, captured));
            return;
        }

        if (captured < original)
        {
            faults.Report(_packets, 0, FaultCodes.RecordCut, FaultText.PcapngRecordCut(offset, captured, original));
            return;
        }

        if (stamp is { } time)
        {
            TakeTime(port, time, offset);
        }

        ports.EnsureHeader();
        records.Read(body.Bytes.Slice(start, (int)captured), _timeUs, _packets, offset);
    }

    private void TakeTime(PcapngInterface port, ulong stamp, long offset)
    {
        if (!port.Clock.TryRead(stamp, out long absolute)
            || ports.FromStart(absolute) is var time && time is < 0 or > CaptureLimits.MaximumTimeUs)
        {
            faults.Report(_packets, 0, FaultCodes.TimeInvalid, FaultText.PcapngTimeInvalid(offset));
            return;
        }

        if (time < _timeUs)
        {
            faults.Report(_packets, 0, FaultCodes.TimeBackwards, FaultText.TimeBackwards);
            return;
        }

        _timeUs = time;
    }
}
