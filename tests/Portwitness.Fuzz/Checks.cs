using Portwitness.Captures;

namespace Portwitness.Fuzz;

/// <summary>What an input was read into, as far as it has to keep its promises: order of time, and faults that say where and what.</summary>
internal sealed class Checks : ICaptureSink
{
    // Faults of an input as a whole or of its end, which have no line.
    private static readonly HashSet<string> OfTheWhole =
    [
        FaultCodes.Empty, FaultCodes.FormatUnknown, FaultCodes.FaultsOmitted, FaultCodes.HeaderMissing, FaultCodes.TimeInvalid,
        FaultCodes.LogWithoutRecords, FaultCodes.LogObjectsMissing, FaultCodes.SysfsWithoutObjects, FaultCodes.SysfsObjectMissing,
        FaultCodes.ArchiveInvalid, FaultCodes.PcapngCut, FaultCodes.PcapngBlocksUnknown, FaultCodes.PcapngOtherPorts, FaultCodes.PcapngDrops,
        FaultCodes.SysfsSeveralPorts, FaultCodes.VcdInvalid, FaultCodes.SamplesCut, FaultCodes.SignalUnsettled, FaultCodes.SignalChosen,
        FaultCodes.ArchiveUnsettled, FaultCodes.WaveformWithoutFrames, FaultCodes.TableRowsEmpty, FaultCodes.MeasurementsFaulty,
    ];

    private long _timeUs;
    private int _headers;

    /// <summary>The first promise that was broken; null for none.</summary>
    public string? Broken { get; private set; }

    /// <summary>Records of all kinds.</summary>
    public long Records { get; private set; }

    public void OnHeader(CaptureHeader header) => Expect(++_headers == 1, "a second header");

    public void OnMessage(in MessageRecord message)
    {
        At(message.TimeUs);
        Expect(message.Bytes.Length is >= 2 and <= CaptureLimits.MaximumMessageBytes, $"a message of {message.Bytes.Length} bytes");
        Expect(message.Known.IsEmpty || message.Known.Length == message.Bytes.Length, "a mask of another length");
    }

    public void OnSignal(SignalRecord signal) => At(signal.TimeUs);

    public void OnMeasurement(MeasurementRecord measurement) => At(measurement.TimeUs);

    public void OnEvent(EventRecord happened) => At(happened.TimeUs);

    public void OnBrokenFrame(BrokenFrameRecord frame) => At(frame.TimeUs);

    // A fault has a code, words, and a place, or is one of the whole.
    public void OnFault(CaptureFault fault)
    {
        Expect(fault.Code.Length > 0 && fault.Detail.Length > 10, $"a fault without words: {fault}");
        bool hasPlace = fault.Line > 0 || fault.Detail.Contains("byte ", StringComparison.Ordinal) || OfTheWhole.Contains(fault.Code);
        Expect(fault.Line >= 0 && fault.Column >= 0 && hasPlace, $"a fault without a place: {fault}");
    }

    /// <summary>Notes a broken promise.</summary>
    public void Expect(bool kept, string otherwise) => Broken ??= kept ? null : otherwise;

    private void At(long timeUs)
    {
        Records++;
        Expect(timeUs >= _timeUs && timeUs <= CaptureLimits.MaximumTimeUs, $"time {timeUs} us after {_timeUs} us");
        _timeUs = timeUs;
    }
}
