using System.Diagnostics;
using System.Globalization;
using System.Text;
using BenchmarkDotNet.Attributes;
using Portwitness.Captures;

namespace Portwitness.Benchmarks;

/// <summary>Reading a capture of a million messages: rate and memory of the reader alone.</summary>
[MemoryDiagnoser]
public class JsonLinesReading
{
    private const int Messages = 1_000_000;

    private readonly byte[] _input = Capture(10_000);

    [Benchmark(OperationsPerInvoke = 10_000)]
    public long Read()
    {
        Counter counter = new();
        CaptureReader reader = new(counter);
        reader.Write(_input);
        reader.Complete();
        return counter.Messages;
    }

    /// <summary>One plain run with the process's peak memory, which a benchmark of repeated runs does not show.</summary>
    public static void ReadOnce()
    {
        byte[] block = Capture(1000);
        int header = block.AsSpan().IndexOf((byte)'\n') + 1;
        Counter counter = new();
        CaptureReader reader = new(counter);
        reader.Write(block.AsSpan(0, header));
        ReadOnlySpan<byte> records = block.AsSpan(header);
        long bytes = header;
        long start = Stopwatch.GetTimestamp();
        for (int round = 0; round < Messages / 1000; round++)
        {
            // Pieces that end within lines, as they come from a file or a network.
            for (int at = 0; at < records.Length; at += 16_384)
            {
                reader.Write(records.Slice(at, Math.Min(16_384, records.Length - at)));
            }

            bytes += records.Length;
        }

        reader.Complete();
        double seconds = Stopwatch.GetElapsedTime(start).TotalSeconds;
        using Process self = Process.GetCurrentProcess();
        Console.WriteLine(string.Create(
            CultureInfo.InvariantCulture,
            $"{counter.Messages} messages, {counter.Faults} faults, {bytes / 1e6:F0} MB in {seconds:F2} s: "
            + $"{counter.Messages / seconds / 1e6:F2} M messages/s, {bytes / seconds / 1e6:F0} MB/s; "
            + $"allocated in all {GC.GetTotalAllocatedBytes() / 1e6:F1} MB, peak working set {self.PeakWorkingSet64 / 1e6:F0} MB"));
    }

    private static byte[] Capture(int messages)
    {
        StringBuilder text = new("{\"capture\":1,\"port\":\"C1\"}\n");
        for (int message = 0; message < messages; message++)
        {
            // The lengths of a conversation: a list of four objects, a request, and control messages.
            string hex = (message % 8) switch
            {
                0 => "A1412C9101082CD102002CB1040045410600",
                2 => "821045150543",
                _ => "8100",
            };
            text.Append(CultureInfo.InvariantCulture, $"{{\"t\":1042,\"sop\":\"SOP\",\"hex\":\"{hex}\",\"crc_ok\":true}}\n");
        }

        return Encoding.UTF8.GetBytes(text.ToString());
    }

    private sealed class Counter : ICaptureSink
    {
        public long Messages { get; private set; }

        public long Faults { get; private set; }

        public void OnHeader(CaptureHeader header)
        {
        }

        public void OnMessage(in MessageRecord message) => Messages++;

        public void OnSignal(SignalRecord signal)
        {
        }

        public void OnMeasurement(MeasurementRecord measurement)
        {
        }

        public void OnEvent(EventRecord happened)
        {
        }

        public void OnFault(CaptureFault fault) => Faults++;
    }
}
