using System.Globalization;
using System.Text.RegularExpressions;

namespace Portwitness.Analysis.Tests.Exchanges;

/// <summary>What may be wrong with a capture while nothing is wrong with the conversation.</summary>
internal static partial class Degraded
{
    /// <summary>The ways, by name; each takes the lines of a capture, its header first.</summary>
    public static IReadOnlyDictionary<string, Func<string[], Random, IEnumerable<string>>> Ways { get; } =
        new Dictionary<string, Func<string[], Random, IEnumerable<string>>>
        {
            ["one frame missing"] = (lines, random) => Without(lines, random.Next(1, lines.Length), 1),
            ["two frames missing"] = (lines, random) => Without(lines, random.Next(1, lines.Length), 2),
            ["four frames missing"] = (lines, random) => Without(lines, random.Next(1, lines.Length), 4),
            ["2 % of the frames missing"] = (lines, random) => Drop(lines, random, 0.02),
            ["15 % of the frames missing"] = (lines, random) => Drop(lines, random, 0.15),
            ["half of the frames missing"] = (lines, random) => Drop(lines, random, 0.5),
            ["begins in the middle"] = (lines, random) => Without(lines, 1, random.Next(1, lines.Length)),
            ["ends early"] = (lines, random) => lines.Take(random.Next(1, lines.Length)),
            ["in milliseconds"] = (lines, _) => lines.Select(line => Stamp(line, t => t / 1000 * 1000)).Select(HideSteps),
            ["in milliseconds, and said so"] = (lines, _) => lines.Select(line => Stamp(line, t => t / 1000 * 1000))
                .Select(line => line.Replace("\"resolution_us\":1}", "\"resolution_us\":1000}", StringComparison.Ordinal)),
            ["in tens of milliseconds"] = (lines, _) => lines.Select(line => Stamp(line, t => t / 10_000 * 10_000)).Select(HideSteps),
            ["without GoodCRC"] = (lines, _) => lines.Where(line => !GoodCrc().IsMatch(line)),
            ["without directions"] = (lines, _) => lines.Select(HideDirection),
            ["without what times name"] = (lines, _) => lines.Select(line => line.Replace("\"time_of\":\"start\",", "", StringComparison.Ordinal)),
            ["stamped at the end"] = (lines, _) => lines.Select(StampEnd),
            ["stamped at the end, and not said so"] = (lines, _) => lines.Select(StampEnd)
                .Select(line => line.Replace("\"time_of\":\"end\",", "", StringComparison.Ordinal)),
            ["without events"] = (lines, _) => lines.Where(line => !line.Contains("\"event\"", StringComparison.Ordinal)),
            ["without events and signals"] = (lines, _) => lines.Where(line => !line.Contains("\"event\"", StringComparison.Ordinal) && !line.Contains("\"signal\"", StringComparison.Ordinal)),
            ["only the source's messages"] = (lines, _) => lines.Where(line => !Message().IsMatch(line) || FromSource(line)),
            ["only the sink's messages"] = (lines, _) => lines.Where(line => !Message().IsMatch(line) || !FromSource(line)),
        };

    private static IEnumerable<string> Without(string[] lines, int from, int count) =>
        lines.Where((_, index) => index < from || index >= from + count);

    private static IEnumerable<string> Drop(string[] lines, Random random, double part) =>
        lines.Where((line, index) => index == 0 || line.Contains("\"event\"", StringComparison.Ordinal) || random.NextDouble() >= part);

    private static string Stamp(string line, Func<long, long> stamp) => Time().Replace(
        line, match => $"\"t\":{stamp(long.Parse(match.Groups[1].Value, CultureInfo.InvariantCulture))}");

    /// <summary>The same with the times of the end of each frame, at 300 kbit/s: preamble, ordered set, bytes with CRC, EOP.</summary>
    public static string StampEnd(string line)
    {
        int bits = Message().IsMatch(line) ? 64 + 20 + (10 * ((Message().Match(line).Groups[1].Length / 2) + 4)) + 5 : 0;
        return Stamp(line, t => t + (((bits * 10) + 2) / 3)).Replace("\"time_of\":\"start\"", "\"time_of\":\"end\"", StringComparison.Ordinal);
    }

    private static string HideSteps(string line) => line.Replace(",\"resolution_us\":1}", "}", StringComparison.Ordinal);

    private static string HideDirection(string line) => Message().Replace(
        line, match => $"\"hex\":\"{match.Groups[1].Value}\",\"known\":\"FFFE{new string('F', match.Groups[1].Length - 4)}\"");

    // Bit 8 of the header, bit 0 of its second byte.
    private static bool FromSource(string line) =>
        (Convert.FromHexString(Message().Match(line).Groups[1].Value[2..4])[0] & 1) == 1;

    [GeneratedRegex("\"t\":(\\d+)")]
    private static partial Regex Time();

    [GeneratedRegex("\"hex\":\"([0-9A-F]+)\"")]
    private static partial Regex Message();

    // Type 1, no objects, not extended: the header's bits 15 to 12 and 4 to 0 (R3.2v1.1, Table 6.1).
    [GeneratedRegex("\"hex\":\"[02468ACE]10[0-9A-F]\"")]
    private static partial Regex GoodCrc();
}
