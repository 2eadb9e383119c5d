using System.Diagnostics;
using System.Globalization;
using System.Text;
using Portwitness.Analysis;
using Portwitness.Analysis.Conversation;
using Portwitness.Captures.Formats;

namespace Portwitness.Benchmarks;

/// <summary>
/// A capture of a million messages in one plain run, with the process's peak memory, which a benchmark of repeated runs
/// does not show.
/// </summary>
internal static class MillionMessages
{
    private const int Messages = 1_000_000;
    private const int Piece = 16_384;

    private delegate void Write(ReadOnlySpan<byte> piece);

    /// <summary>The reader alone.</summary>
    public static void Read()
    {
        CaptureReader reader = new(new MessageCounter());
        Run("read", reader.Write, reader.Complete);
    }

    /// <summary>Reader, conversation, profile and all rules.</summary>
    public static void Analyse()
    {
        CaptureAnalyzer analyzer = new(new CaptureOptions { File = "benchmark" });
        Run("analysed", analyzer.Write, () => analyzer.Complete());
    }

    /// <summary>A conversation as it should be, with all rules: what the rules of sequence and timing cost.</summary>
    public static void AnalyseConversation()
    {
        byte[] capture = ConversationChecking.Capture();
        for (int round = 0; round < 5; round++)
        {
            long allocated = GC.GetTotalAllocatedBytes(true);
            long start = Stopwatch.GetTimestamp();
            CaptureAnalyzer analyzer = new(new CaptureOptions { File = "benchmark" });
            analyzer.Write(capture);
            CaptureAnalysis analysis = analyzer.Complete();
            double seconds = Stopwatch.GetElapsedTime(start).TotalSeconds;
            Console.WriteLine(string.Create(
                CultureInfo.InvariantCulture,
                $"{analysis.MessageCount} messages of a conversation in {seconds:F2} s: {analysis.MessageCount / seconds / 1e6:F2} M messages/s, "
                + $"{(GC.GetTotalAllocatedBytes(true) - allocated) / analysis.MessageCount} bytes a message, {analysis.Findings.Length} findings"));
        }
    }

    /// <summary>The capture as a file, to measure whole commands with.</summary>
    public static void Save(string path)
    {
        using FileStream file = File.Create(path);
        Run("written", piece => file.Write(piece), file.Flush);
    }

    /// <summary>A header and messages with the lengths of a conversation: a list, a request, and control messages.</summary>
    public static byte[] Capture(int messages)
    {
        StringBuilder text = new("{\"capture\":1,\"port\":\"C1\"}\n");
        for (int message = 0; message < messages; message++)
        {
            string hex = (message % 8) switch
            {
                0 => "A1412C9101082CD102002CB1040045410600",
                2 => "821045150543",
                4 => "A303",
                6 => "A605",
                _ => "8100",
            };
            text.Append(CultureInfo.InvariantCulture, $"{{\"t\":1042,\"sop\":\"SOP\",\"hex\":\"{hex}\",\"crc_ok\":true}}\n");
        }

        return Encoding.UTF8.GetBytes(text.ToString());
    }

    // Pieces end within lines, as they come from a file or a network.
    private static void Run(string what, Write write, Action complete)
    {
        byte[] block = Capture(1000);
        int header = block.AsSpan().IndexOf((byte)'\n') + 1;
        write(block.AsSpan(0, header));
        ReadOnlySpan<byte> records = block.AsSpan(header);
        long start = Stopwatch.GetTimestamp();
        for (int round = 0; round < Messages / 1000; round++)
        {
            for (int at = 0; at < records.Length; at += Piece)
            {
                write(records.Slice(at, Math.Min(Piece, records.Length - at)));
            }
        }

        complete();
        double seconds = Stopwatch.GetElapsedTime(start).TotalSeconds;
        double bytes = (double)records.Length * (Messages / 1000);
        using Process self = Process.GetCurrentProcess();
        Console.WriteLine(string.Create(
            CultureInfo.InvariantCulture,
            $"{Messages} messages {what}, {bytes / 1e6:F0} MB in {seconds:F2} s: {Messages / seconds / 1e6:F2} M messages/s, "
            + $"{bytes / seconds / 1e6:F0} MB/s; peak working set {self.PeakWorkingSet64 / 1e6:F0} MB"));
    }
}
