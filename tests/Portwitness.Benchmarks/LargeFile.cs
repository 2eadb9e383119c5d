using System.Diagnostics;
using System.Globalization;
using Portwitness.Analysis;
using Portwitness.Analysis.Conversation;
using Portwitness.Captures;
using Portwitness.Captures.Formats;
using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Headers;

namespace Portwitness.Benchmarks;

/// <summary>
/// Captures of any length as files: to write one, and to read one in one plain run with the process's peak memory. Other
/// programs can be given the same file; side-by-side.sh does.
/// </summary>
internal static class LargeFile
{
    private const int Piece = 128 << 10;

    private delegate void Write(ReadOnlySpan<byte> piece);

    /// <summary>Writes a capture in the format that the name tells: a conversation over and over, 1 ms a message.</summary>
    public static void Save(string path, long messages)
    {
        using FileStream file = File.Create(path);
        using ICaptureWriter writer = CaptureFormats.Find(path).Format!.Open(file, null);
        writer.OnHeader(new CaptureHeader { Format = "capture", Port = "C1" });
        byte[][] conversation = [.. Conversation()];
        for (long message = 0; message < messages; message++)
        {
            byte[] bytes = conversation[message % conversation.Length];
            writer.OnMessage(new MessageRecord
            {
                TimeUs = 1000 * message,
                Line = 0,
                Sop = SopKind.Sop,
                Bytes = bytes,
                Crc = MessageCrc.Of(bytes),
                CrcOk = true,
            });
        }
    }

    // List, request, Accept and PS_RDY with their GoodCRCs, until all MessageIDs have come round.
    private static IEnumerable<byte[]> Conversation()
    {
        (int fromSource, int fromSink) = (0, 0);
        for (int round = 0; round < 8; round++)
        {
            foreach ((MessageKind kind, bool isSource, string objects) in new[]
            {
                (MessageKind.SourceCapabilities, true, "2C9101082CD102002CB1040045410600"), (MessageKind.Request, false, "45150543"),
                (MessageKind.Accept, true, ""), (MessageKind.PSRDY, true, ""),
            })
            {
                int id = (isSource ? fromSource++ : fromSink++) & 7;
                yield return Message(kind, isSource, id, Convert.FromHexString(objects));
                yield return Message(MessageKind.GoodCRC, !isSource, id, []);
            }
        }
    }

    private static byte[] Message(MessageKind kind, bool isSource, int id, byte[] objects)
    {
        ushort header = MessageHeader.Create(kind, objects.Length / 4, id, isSource, isSource, 2).Raw;
        return [(byte)header, (byte)(header >> 8), .. objects];
    }

    /// <summary>The reader alone.</summary>
    public static void Read(string path)
    {
        MessageCounter counter = new();
        CaptureReader reader = new(counter);
        Run(path, "read", reader.Write, reader.Complete, () => counter.Messages);
    }

    /// <summary>Reader, conversation, profile and all rules.</summary>
    public static void Analyse(string path)
    {
        CaptureAnalyzer analyzer = new(new CaptureOptions { File = "benchmark" });
        long messages = 0;
        Run(path, "analysed", analyzer.Write, () => messages = analyzer.Complete().MessageCount, () => messages);
    }

    private static void Run(string path, string what, Write write, Action complete, Func<long> count)
    {
        using FileStream file = new(path, FileMode.Open, FileAccess.Read, FileShare.Read, bufferSize: 0);
        byte[] piece = new byte[Piece];
        long start = Stopwatch.GetTimestamp();
        for (int length; (length = file.Read(piece)) > 0;)
        {
            write(piece.AsSpan(0, length));
        }

        complete();
        double seconds = Stopwatch.GetElapsedTime(start).TotalSeconds;
        using Process self = Process.GetCurrentProcess();
        Console.WriteLine(string.Create(
            CultureInfo.InvariantCulture,
            $"{count()} messages {what}, {file.Length / 1e6:F0} MB in {seconds:F2} s: {seconds / count() * 1e9:F0} ns a message, "
            + $"{file.Length / seconds / 1e6:F0} MB/s; peak working set {self.PeakWorkingSet64 / 1e6:F0} MB"));
    }
}
