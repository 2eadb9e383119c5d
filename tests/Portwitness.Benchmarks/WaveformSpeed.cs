using System.Diagnostics;
using System.Globalization;
using Portwitness.Captures;
using Portwitness.Captures.Formats;
using Portwitness.Captures.Waveforms;
using Portwitness.PowerDelivery.Framing;

namespace Portwitness.Benchmarks;

/// <summary>Recordings of the CC line in one plain run each: a dump of continuous traffic, packed bits idle and busy, and the receiver alone.</summary>
internal static class WaveformSpeed
{
    private const long SampleRate = 25_000_000;
    private const int Piece = 64 << 10;

    private static readonly byte[] Message = Convert.FromHexString("A1412C9101082CD102002CB1040045410600");

    public static void Run()
    {
        // Once over a little of each, so that what is measured is compiled.
        for (int round = 0; round < 2; round++)
        {
            bool tell = round == 1;
            int scale = tell ? 10 : 1;
            Read("VCD, continuous traffic", Written(stream => new VcdWriter(stream), 1500 * scale, 1_100), new(), 0, tell);
            Read("1 bit, 10 messages a second", Bits(10 * scale, 100_000), Samples(SampleKind.Bit), 8, tell);
            Read("1 bit, continuous traffic", Bits(400 * scale, 1_100), Samples(SampleKind.Bit), 8, tell);
            SampleShape bytes = new() { Kind = SampleKind.U8, SampleRate = SampleRate };
            Read("8 bits, continuous traffic", Written(stream => new SampleWriter(stream, bytes), 100 * scale, 1_100), Samples(SampleKind.U8), 1, tell);
            Receive(2000 * scale, tell);
        }
    }

    private static WaveformOptions Samples(SampleKind kind) => new() { Samples = kind, SampleRate = SampleRate };

    private static byte[] Bits(int messages, long everyUs) =>
        Written(stream => new SampleWriter(stream, new SampleShape { SampleRate = SampleRate }), messages, everyUs);

    private static byte[] Written(Func<Stream, ICaptureWriter> open, int messages, long everyUs)
    {
        MemoryStream stream = new();
        using (ICaptureWriter writer = open(stream))
        {
            writer.OnHeader(new CaptureHeader { Format = "capture" });
            for (int i = 0; i < messages; i++)
            {
                writer.OnMessage(new MessageRecord { TimeUs = i * everyUs, Line = 0, Sop = SopKind.Sop, Bytes = Message });
            }
        }

        return stream.ToArray();
    }

    private static void Read(string what, byte[] input, WaveformOptions options, int samplesPerByte, bool tell)
    {
        MessageCounter counter = new();
        CaptureReader reader = new(counter, new CaptureReadOptions { Waveform = options });
        long start = Stopwatch.GetTimestamp();
        for (int at = 0; at < input.Length; at += Piece)
        {
            reader.Write(input.AsSpan(at, Math.Min(Piece, input.Length - at)));
        }

        reader.Complete();
        double seconds = Stopwatch.GetElapsedTime(start).TotalSeconds;
        double recorded = (double)input.Length * samplesPerByte / SampleRate;
        string times = samplesPerByte == 0 ? "" : string.Create(CultureInfo.InvariantCulture, $", {recorded / seconds:F0} x real time");
        Tell(tell, string.Create(CultureInfo.InvariantCulture, $"{what}: {counter.Messages} messages, {input.Length / 1e6:F0} MB, {input.Length / seconds / 1e6:F0} MB/s{times}"));
    }

    private static void Receive(int frames, bool tell)
    {
        List<LineEdge> edges = [];
        new LineTransmitter(new LineShape()).Send(FrameEncoder.Encode(SopKind.Sop, Message), 100_000_000, edges);
        long[] times = [.. edges.Select(edge => edge.TimePs)];
        FrameCounter counter = new();
        LineReceiver receiver = new(counter);
        long start = Stopwatch.GetTimestamp();
        for (int frame = 0; frame < frames; frame++)
        {
            foreach (long time in times)
            {
                receiver.Edge(time + (frame * 1_100_000_000L));
            }
        }

        receiver.Complete((frames + 1) * 1_100_000_000L);
        double seconds = Stopwatch.GetElapsedTime(start).TotalSeconds;
        Tell(tell, string.Create(CultureInfo.InvariantCulture, $"receiver alone: {counter.Frames} frames of {times.Length} edges, {counter.Frames / seconds / 1e3:F0} k frames/s, "
            + $"{(double)frames * times.Length / seconds / 1e6:F0} M edges/s"));
    }

    private static void Tell(bool tell, string text)
    {
        if (tell)
        {
            Console.WriteLine(text);
        }
    }

    private sealed class FrameCounter : ILineFrameSink
    {
        public long Frames { get; private set; }

        public void OnFrame(in LineFrame frame) => Frames += frame.CrcIsRight ? 1 : 0;
    }
}
