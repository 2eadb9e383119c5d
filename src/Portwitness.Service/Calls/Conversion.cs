using Portwitness.Captures;
using Portwitness.Service.Translation;
using Wire = Portwitness.Contracts.V1;

namespace Portwitness.Service.Calls;

/// <summary>Writes what is read and counts it.</summary>
internal sealed class Conversion(ICaptureWriter writer) : ICaptureSink
{
    private readonly List<CaptureFault> _faults = [];
    private long _messages;
    private long _signals;
    private long _measurements;
    private long _events;
    private long _brokenFrames;

    /// <summary>Whether anything was written.</summary>
    public bool HasBegun { get; private set; }

    public void OnHeader(CaptureHeader header)
    {
        HasBegun = true;
        writer.OnHeader(header);
    }

    public void OnMessage(in MessageRecord message)
    {
        _messages++;
        writer.OnMessage(message);
    }

    public void OnSignal(SignalRecord signal)
    {
        _signals++;
        writer.OnSignal(signal);
    }

    public void OnMeasurement(MeasurementRecord measurement)
    {
        _measurements++;
        writer.OnMeasurement(measurement);
    }

    public void OnEvent(EventRecord happened)
    {
        _events++;
        writer.OnEvent(happened);
    }

    public void OnBrokenFrame(BrokenFrameRecord frame)
    {
        _brokenFrames++;
        writer.OnBrokenFrame(frame);
    }

    // Readers hand on a thousand and count the others themselves.
    public void OnFault(CaptureFault fault) => _faults.Add(fault);

    /// <summary>What was read and written.</summary>
    public Wire.Conversion ToContract(string file, string? from, string to)
    {
        Wire.Conversion conversion = new() { From = from ?? "", To = to };
        (string Kind, long Read)[] counts =
        [
            ("messages", _messages), ("signals", _signals), ("measurements", _measurements), ("events", _events),
            ("broken frames", _brokenFrames),
        ];
        foreach ((string kind, long read) in counts)
        {
            long leftOut = writer.LeftOut.GetValueOrDefault(kind);
            if (kind != "broken frames" || read > 0)
            {
                conversion.Written.Add(new Wire.RecordCount { Kind = kind, Count = read - leftOut });
            }

            if (leftOut > 0)
            {
                conversion.LeftOut.Add(new Wire.RecordCount { Kind = kind, Count = leftOut });
            }
        }

        conversion.Moved.AddRange(writer.Moved.Select(one => new Wire.MovedRecord { Kind = one.Kind, FromUs = one.FromUs, ToUs = one.ToUs }));
        conversion.MovedCount = writer.MovedCount;
        conversion.Faults.AddRange(_faults.Select(fault => fault.ToContract(file)));
        return conversion;
    }
}
