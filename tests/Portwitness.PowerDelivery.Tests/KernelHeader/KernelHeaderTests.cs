using System.Diagnostics;
using System.Globalization;
using Portwitness.PowerDelivery.Tests.Support;
using Portwitness.Tests;

namespace Portwitness.PowerDelivery.Tests.KernelHeader;

/// <summary>
/// Words that a C program makes with the macros of the Linux kernel's own, unmodified pd.h, pd_vdo.h and pd_ado.h, read
/// here. The program and the few kernel definitions that those headers need are in Data; the headers are Debian's.
/// </summary>
public sealed class KernelHeaderTests
{
    private const string Packages = "gcc, libc6-dev and the newest linux-headers-*-common";
    private const string Compiler = "/usr/bin/gcc";
    private const string Headers = "/usr/src/linux-headers-*-common/include";
    private const int WordsOfEachType = 300;

    private static readonly string[] Types =
    [
        "fixed_source", "fixed_sink", "battery_source", "battery_sink", "variable_source", "variable_sink", "pps_source",
        "pps_sink", "fixed_variable_request", "battery_request", "pps_request", "message_header", "extended_header",
        "structured_vdm", "unstructured_vdm", "id_header", "product", "svid_pair", "ufp", "dfp", "passive_cable",
        "active_cable", "active_cable_2", "vpd", "enter_usb", "alert",
    ];

    [NeedsDebianPackageFact(Packages, Compiler, Headers, "/usr/include/stdio.h")]
    public void WordsOfTheKernelsMacros_ReadAndWriteTheSame()
    {
        int seed = Environment.TickCount & 0xFFFFFF;
        string[] lines = Lines(seed);
        lines.Select(line => line.Split(' ')[0]).Distinct().Should().BeEquivalentTo(Types);
        foreach (string line in lines)
        {
            string[] parts = line.Split(' ');
            WireType type = WireTypes.Of(parts[0]);
            uint word = uint.Parse(parts[1], CultureInfo.InvariantCulture);
            Dictionary<string, long> expected = type.Decode(0).ToDictionary(field => field.Key, _ => 0L);
            foreach (string[] field in parts[2..].Select(part => part.Split('=')))
            {
                expected.Should().ContainKey(field[0], $"seed {seed}: {line}");
                expected[field[0]] = long.Parse(field[1], CultureInfo.InvariantCulture);
            }

            Dictionary<string, long> read = type.Decode(word);
            string[] wrong = [.. expected.Where(field => read[field.Key] != field.Value).Select(field => field.Key)];
            wrong.Should().BeEmpty($"seed {seed}: {line}");
            type.Encode(new FieldReader(expected)).Should().Be(word, $"seed {seed}: {line}");
        }
    }

    private static string[] Lines(int seed)
    {
        string headers = NeedsDebianPackageFactAttribute.Find(Headers)
            ?? throw new InvalidOperationException($"Install Debian's packages {Packages}.");
        string data = Repository.PathOf("tests", "Portwitness.PowerDelivery.Tests", "KernelHeader", "Data");
        string folder = Directory.CreateTempSubdirectory("kernel-words-").FullName;
        try
        {
            string program = Path.Combine(folder, "words");
            Run(Compiler, "-std=gnu11", "-fwrapv", "-I", Path.Combine(data, "stubs"), "-I", headers,
                Path.Combine(data, "words.c"), "-o", program);
            return Run(program, seed.ToString(CultureInfo.InvariantCulture), WordsOfEachType.ToString(CultureInfo.InvariantCulture))
                .Split('\n', StringSplitOptions.RemoveEmptyEntries);
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static string Run(string program, params string[] arguments)
    {
        ProcessStartInfo start = new(program, arguments) { RedirectStandardOutput = true, RedirectStandardError = true };
        using Process process = Process.Start(start)!;
        Task<string> errors = process.StandardError.ReadToEndAsync();
        string output = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        process.ExitCode.Should().Be(0, errors.Result);
        return output;
    }
}
