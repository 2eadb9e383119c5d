using System.Diagnostics;
using System.Globalization;
using Portwitness.Tests;

namespace Portwitness.Captures.Tests.Pcapng;

/// <summary>What is written here, capinfos and tshark (Debian's package tshark) read as it was meant.</summary>
public class OtherProgramsTests
{
    private const string Capinfos = "/usr/bin/capinfos";
    private const string Tshark = "/usr/bin/tshark";

    [NeedsDebianPackageFact("tshark", Capinfos, Tshark)]
    public void Capinfos_CountsTheSamePacketsAndNamesTheInterface()
    {
        string output = Run(Capinfos, "-M -c -I -k -A");

        output.Should().MatchRegex("Number of packets: +15\n").And.Contain("Name = C1").And.Contain("Encapsulation = USER 0")
            .And.Contain("Time precision = microseconds").And.Contain("{\"capture\":1,\"port\":\"C1\"");
    }

    [NeedsDebianPackageFact("tshark", Capinfos, Tshark)]
    public void Tshark_ShowsTheSameTimesAndBytes()
    {
        string[] lines = Run(Tshark, "-T fields -e frame.time_epoch -e frame.interface_name -e frame.len -r").TrimEnd().Split('\n');

        Recording read = Recording.OfFile("bench.capture.jsonl");
        IEnumerable<long> times = read.Messages.Select(m => m.TimeUs).Concat(read.Events.Select(e => e.TimeUs))
            .Concat(read.Signals.Select(s => s.TimeUs)).Concat(read.Measurements.Select(m => m.TimeUs)).Order();
        lines.Select(line => line.Split('\t')[0]).Should().Equal(times.Select(time => string.Create(
            CultureInfo.InvariantCulture, $"{1_772_442_847 + (time / 1_000_000)}.{time % 1_000_000:D6}000")));
        lines.Should().OnlyContain(line => line.Split('\t')[1] == "C1");
    }

    private static string Run(string program, string arguments)
    {
        string path = Path.GetTempFileName();
        try
        {
            File.WriteAllBytes(path, PcapngWriterTests.Pcapng(File.ReadAllBytes(Recording.PathOf("bench.capture.jsonl"))));
            using Process process = Process.Start(new ProcessStartInfo(program, $"{arguments} {path}")
            {
                RedirectStandardOutput = true,
                RedirectStandardError = true,
            })!;
            Task<string> errors = process.StandardError.ReadToEndAsync();
            string output = process.StandardOutput.ReadToEnd();
            process.WaitForExit();
            process.ExitCode.Should().Be(0, errors.Result);
            return output;
        }
        finally
        {
            File.Delete(path);
        }
    }
}
