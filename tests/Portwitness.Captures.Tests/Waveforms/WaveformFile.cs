using System.Text;
using Portwitness.Captures.Formats;
using Portwitness.Captures.Waveforms;
using Portwitness.PowerDelivery.Framing;

namespace Portwitness.Captures.Tests.Waveforms;

/// <summary>Recordings of a short conversation, made by the project's own writers.</summary>
internal static class WaveformFile
{
    /// <summary>Source_Capabilities with four objects, its GoodCRC, a message to the cable, and a Hard Reset.</summary>
    public static readonly (long TimeUs, SopKind? Sop, string Hex)[] Conversation =
    [
        (1_000, SopKind.Sop, "A1412C9101082CD102002CB1040045410600"),
        (2_300, SopKind.Sop, "8100"),
        (3_000, SopKind.SopPrime, "4F0001A000FF"),
        (3_800, null, ""),
    ];

    public static byte[] Vcd(LineShape? shape = null) => Written(stream => new VcdWriter(stream, shape));

    public static byte[] Samples(SampleShape samples, LineShape? shape = null) =>
        Written(stream => new SampleWriter(stream, samples, shape));

    public static CaptureReadOptions Options(SampleKind kind, long rate, (int, int)? levels = null) =>
        new() { Waveform = new WaveformOptions { Samples = kind, SampleRate = rate, Levels = levels } };

    public static CaptureReadOptions Signal(string name) => new() { Waveform = new WaveformOptions { Signal = name } };

    /// <summary>Holds what was read against what was sent.</summary>
    public static void ShouldHoldTheConversation(this Recording read, string because = "")
    {
        read.Faults.Should().BeEmpty(because);
        read.Broken.Should().BeEmpty(because);
        read.Messages.Select(message => (message.Sop, message.Hex, message.CrcOk))
            .Should().Equal(Conversation.Where(sent => sent.Sop is not null).Select(sent => (sent.Sop!.Value, sent.Hex, (bool?)true)), because);
        read.Signals.Select(signal => signal.Kind).Should().Equal([SignalKind.HardReset], because);
        long[] times = [.. read.Messages.Select(message => message.TimeUs), read.Signals.Single().TimeUs];
        for (int i = 0; i < times.Length; i++)
        {
            // Where the line idles low, the first bit begins unseen.
            times[i].Should().BeInRange(Conversation[i].TimeUs - 1, Conversation[i].TimeUs + 4, because);
        }
    }

    public static string Text(this byte[] bytes) => Encoding.UTF8.GetString(bytes);

    private static byte[] Written(Func<Stream, ICaptureWriter> open)
    {
        MemoryStream stream = new();
        using (ICaptureWriter writer = open(stream))
        {
            writer.OnHeader(new CaptureHeader { Format = "capture", Port = "C1" });
            foreach ((long timeUs, SopKind? sop, string hex) in Conversation)
            {
                if (sop is { } kind)
                {
                    writer.OnMessage(new MessageRecord { TimeUs = timeUs, Line = 0, Sop = kind, Bytes = Convert.FromHexString(hex) });
                }
                else
                {
                    writer.OnSignal(new SignalRecord(timeUs, 0, SignalKind.HardReset));
                }
            }

            writer.LeftOut.Should().BeEmpty();
        }

        return stream.ToArray();
    }
}
