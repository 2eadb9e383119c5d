using System.Globalization;
using System.Text;
using Portwitness.Captures.Formats;
using Portwitness.PowerDelivery.Framing;

namespace Portwitness.Captures.Tests;

/// <summary>A message that outlives the call that handed it over.</summary>
public sealed record KeptMessage(
    long TimeUs, long Line, SopKind Sop, string Hex, string Known, uint? Crc, bool? CrcOk, string Extra);

/// <summary>Everything a reader hands on, and the order of it.</summary>
public sealed class Recording : ICaptureSink
{
    public List<CaptureHeader> Headers { get; } = [];

    public List<KeptMessage> Messages { get; } = [];

    public List<SignalRecord> Signals { get; } = [];

    public List<BrokenFrameRecord> Broken { get; } = [];

    /// <summary>Of each message, in order.</summary>
    public List<FrameQuality> Qualities { get; } = [];

    public List<MeasurementRecord> Measurements { get; } = [];

    public List<EventRecord> Events { get; } = [];

    public List<CaptureFault> Faults { get; } = [];

    public string? Format { get; private set; }

    /// <summary>One line for each call, in order.</summary>
    public List<string> Calls { get; } = [];

    public CaptureHeader Header => Headers.Single();

    public IEnumerable<string> FaultCodes => Faults.Select(fault => fault.Code);

    public static Recording Of(string text, int piece = int.MaxValue) => Of(Encoding.UTF8.GetBytes(text), piece);

    public static Recording Of(ReadOnlySpan<byte> input, int piece = int.MaxValue, CaptureReadOptions? options = null)
    {
        Recording recording = new();
        CaptureReader reader = new(recording, options);
        while (!input.IsEmpty)
        {
            int length = Math.Min(piece, input.Length);
            reader.Write(input[..length]);
            input = input[length..];
        }

        reader.Complete();
        recording.Format = reader.Format;
        return recording;
    }

    /// <summary>Reads two pieces.</summary>
    public static Recording OfSplit(ReadOnlySpan<byte> input, int at, CaptureReadOptions? options = null)
    {
        Recording recording = new();
        CaptureReader reader = new(recording, options);
        reader.Write(input[..at]);
        reader.Write(input[at..]);
        reader.Complete();
        return recording;
    }

    public static Recording OfFile(string name) =>
        Of(File.ReadAllBytes(PathOf(name)));

    public static string PathOf(string name) =>
        Portwitness.Tests.Repository.PathOf("tests", "Portwitness.Captures.Tests", "Data", name);

    public void OnHeader(CaptureHeader header)
    {
        Calls.Add(header.ToString() + string.Join('|', header.InUse) + string.Join('|', header.AttachOrder));
        Headers.Add(header);
    }

    public void OnMessage(in MessageRecord message)
    {
        KeptMessage kept = new(
            message.TimeUs, message.Line, message.Sop, Convert.ToHexString(message.Bytes), Convert.ToHexString(message.Known),
            message.Crc, message.CrcOk, Encoding.UTF8.GetString(message.Extra));
        Calls.Add($"{kept} {message.Quality}");
        Messages.Add(kept);
        Qualities.Add(message.Quality);
    }

    public void OnSignal(SignalRecord signal) => Keep(Signals, signal);

    public void OnBrokenFrame(BrokenFrameRecord frame)
    {
        Calls.Add($"{frame} {Convert.ToHexString(frame.Part.AsSpan())}");
        Broken.Add(frame);
    }

    public void OnMeasurement(MeasurementRecord measurement) => Keep(Measurements, measurement);

    public void OnEvent(EventRecord happened) => Keep(Events, happened);

    public void OnFault(CaptureFault fault) => Keep(Faults, fault);

    private void Keep<T>(List<T> list, T record)
    {
        Calls.Add(string.Create(CultureInfo.InvariantCulture, $"{record}"));
        list.Add(record);
    }
}
