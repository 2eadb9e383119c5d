using Portwitness.Captures;
using Portwitness.Captures.Formats;
using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Headers;
using Portwitness.Synthesis;

namespace Portwitness.Testing;

/// <summary>A message that outlives its call.</summary>
public sealed record SentMessage(long TimeUs, SopKind Sop, byte[] Bytes, uint Crc, bool? CrcOk)
{
    public string Hex => Convert.ToHexString(Bytes);

    public MessageHeader Header => new((ushort)(Bytes[0] | (Bytes[1] << 8)));

    public string Name => Header.Kind.Name;

    /// <summary>End of the frame at 300 kbit/s: preamble 64, ordered set 20, ten bits a byte with CRC, EOP 5 (R3.2v1.1, 5.3 to 5.6).</summary>
    public long EndUs => TimeUs + (((64 + 20 + (10 * (Bytes.Length + 4)) + 5) * 10) + 2) / 3;
}

/// <summary>A script's capture, read back through the reader.</summary>
public sealed class Synthesised : ICaptureSink
{
    public CaptureHeader Header { get; private set; } = null!;

    public List<SentMessage> Messages { get; } = [];

    public List<SignalRecord> Signals { get; } = [];

    public List<MeasurementRecord> Measurements { get; } = [];

    public List<EventRecord> Events { get; } = [];

    public long Records => Messages.Count + Signals.Count + Measurements.Count + Events.Count;

    /// <summary>Messages other than GoodCRC.</summary>
    public IEnumerable<SentMessage> Spoken => Messages.Where(message => message.Name != "GoodCRC");

    public SentMessage Only(string name) => Messages.Single(message => message.Name == name);

    /// <summary>Steps after an attach, with a list of four fixed offers, PPS, SPR AVS, variable and battery, and its EPR objects.</summary>
    public static Synthesised Steps(params string[] steps) => Of(Script(steps));

    public static string Script(params string[] steps) =>
        """
        port: C1
        cable: EPR detachable
        source: [5V 3A, 9V 3A, 20V 5A, battery 3.3-21V 60W, variable 4.75-5.5V 3A, SPR AVS 3A/5A, PPS 5-11V 3A, 28V 5A, EPR AVS 15-28V 140W]
        sink: [5V 3A higher-capability, 20V 2.25A]
        steps:
        """ + "\n" + string.Concat(steps.Select(step => $"  - {step}\n"));

    public static Synthesised Of(string text)
    {
        Synthesised result = new();
        CaptureReader reader = new(result);
        reader.Write(Bytes(text));
        reader.Complete();
        reader.Format.Should().Be("capture");
        return result;
    }

    public static byte[] Bytes(string text)
    {
        SynthesisScript script = ScriptReader.Read(text);
        script.Faults.Should().BeEmpty();
        using MemoryStream all = new();
        foreach (ReadOnlyMemory<byte> piece in Synthesizer.Write(script))
        {
            all.Write(piece.Span);
        }

        return all.ToArray();
    }

    /// <summary>"line:column code" of each fault.</summary>
    public static IEnumerable<string> Faults(string text) =>
        ScriptReader.Read(text).Faults.Select(fault => $"{fault.Line}:{fault.Column} {fault.Code}");

    public void OnHeader(CaptureHeader header) => Header = header;

    public void OnMessage(in MessageRecord message) => Messages.Add(new SentMessage(
        message.TimeUs, message.Sop, message.Bytes.ToArray(), message.Crc!.Value, message.CrcOk));

    public void OnSignal(SignalRecord signal) => Signals.Add(signal);

    public void OnMeasurement(MeasurementRecord measurement) => Measurements.Add(measurement);

    public void OnEvent(EventRecord happened) => Events.Add(happened);

    public void OnFault(CaptureFault fault) => throw new InvalidOperationException($"{fault}");
}
