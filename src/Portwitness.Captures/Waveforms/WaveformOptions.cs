using Portwitness.Captures.Archives;
using System.Globalization;
using Portwitness.Text;

namespace Portwitness.Captures.Waveforms;

/// <summary>How a sample is stored; numbers are little-endian.</summary>
public enum SampleKind
{
    /// <summary>One bit a sample, the first one lowest in its byte.</summary>
    Bit,

    /// <summary>One bit a sample, the first one highest in its byte.</summary>
    BitHighFirst,

    /// <summary>One byte, 0 to 255.</summary>
    U8,

    /// <summary>Two bytes, -32768 to 32767.</summary>
    I16,

    /// <summary>Four bytes, IEEE 754, volts.</summary>
    F32,

    /// <summary>Text: one voltage a line.</summary>
    Text,
}

/// <summary>What has to be said of a recording of the CC line, because its bytes do not.</summary>
public sealed record WaveformOptions
{
    /// <summary>Fewest samples a second that are taken: 1 MS/s is three for a bit.</summary>
    public const long LeastSampleRate = 1_000_000;

    /// <summary>Most samples a second that are taken: 100 GS/s.</summary>
    public const long MaxSampleRate = 100_000_000_000;

    private const string ZipEnding = ".zip";
    private const string TarEnding = ".tar";
    private const int MaxStep = ushort.MaxValue;

    /// <summary>What <see cref="ParseSamples"/> takes.</summary>
    public const string ExpectedSamples =
        "no kind and rate of samples; expected for example u8@25MS/s: bit, bit-high-first, u8, i16, f32 or text, at 1 MS/s to 100 GS/s; "
        + "u8.gz@25MS/s when the file is compressed, u8.zip@25MS/s when it is in a zip archive, u8.tar@25MS/s in a tar archive or a folder (u8.tar.gz: compressed), u8[2]@4MS/s for bit 2 of each sample.";

    /// <summary>What <see cref="TryParseLevels"/> takes.</summary>
    public const string ExpectedLevels = "no levels; expected low and high, for example 0.4,0.7 in volts, or whole steps of u8 and i16.";

    /// <summary>What <see cref="TryParseUnits"/> takes.</summary>
    public const string ExpectedUnits = "no units; expected one of time and one of voltage, for example us,mV.";

    private static readonly (string Word, int Decimals)[] TimeUnits = [("s", 12), ("ms", 9), ("us", 6), ("µs", 6), ("ns", 3), ("ps", 0)];

    private static readonly (string Word, int Decimals)[] VoltageUnits = [("V", 6), ("mV", 3), ("uV", 0), ("µV", 0)];

    /// <summary>These options with what is said of the samples.</summary>
    public WaveformOptions With(StatedSamples samples)
    {
        ArgumentNullException.ThrowIfNull(samples);
        return this with { Samples = samples.Kind, SampleRate = samples.Rate, SamplesPacked = samples.Packed, SamplesIn = samples.Archive, SampleBit = samples.Bit };
    }

    private static readonly (string Word, SampleKind Kind)[] Kinds =
    [
        ("bit", SampleKind.Bit), ("bit-high-first", SampleKind.BitHighFirst), ("u8", SampleKind.U8), ("i16", SampleKind.I16),
        ("f32", SampleKind.F32), ("text", SampleKind.Text),
    ];

    /// <summary>
    /// The signal of a VCD file, "cc1" or with its scopes "top.cc1", or the column of a table; null for the only one that can be
    /// meant.
    /// </summary>
    public string? Signal { get; init; }

    /// <summary>The kind of samples of a file that is nothing but samples; null when the file says what it is.</summary>
    public SampleKind? Samples { get; init; }

    /// <summary>Whether the samples are compressed with gzip: their bytes may look like anything, so that it has to be said.</summary>
    public bool SamplesPacked { get; init; }

    /// <summary>Samples a second.</summary>
    public long SampleRate { get; init; }

    /// <summary>The archive that the samples are in.</summary>
    public SampleArchive SamplesIn { get; init; }

    /// <summary>The bit of each sample that is the line, the lowest being 0; null when the sample is its voltage.</summary>
    public int? SampleBit { get; init; }

    /// <summary>
    /// Below the first the line is low, above the second it is high, between them it is what it was: in microvolts, of
    /// <see cref="SampleKind.U8"/> and <see cref="SampleKind.I16"/> in steps. Null: found from the recording.
    /// </summary>
    public (int Low, int High)? Levels { get; init; }

    /// <summary>
    /// Units of a table's times and voltages, as the decimals that picoseconds and microvolts have in them: 12 for seconds, 6 for
    /// volts. Null: what the table's heading says, and where it does not, seconds and volts.
    /// </summary>
    public (int Time, int Voltage)? Units { get; init; }

    /// <summary>Reads "us,mV": s, ms, us, ns or ps, then V, mV or uV. False when the text is none.</summary>
    public static bool TryParseUnits(string text, out (int Time, int Voltage) units)
    {
        string[] parts = text.Split(',');
        units = default;
        if (parts.Length != 2 || TimeDecimals(parts[0]) is not { } time || VoltageDecimals(parts[1]) is not { } voltage)
        {
            return false;
        }

        units = (time, voltage);
        return true;
    }

    internal static int? TimeDecimals(string unit) => Decimals(TimeUnits, unit);

    internal static int? VoltageDecimals(string unit) => Decimals(VoltageUnits, unit);

    private static int? Decimals((string Word, int Decimals)[] units, string word)
    {
        int found = Array.FindIndex(units, unit => unit.Word == word);
        return found < 0 ? null : units[found].Decimals;
    }

    /// <summary>
    /// Reads "u8@25MS/s", "u8.gz@25MS/s" of a compressed file, or "u8[2]@4MS/s" of bit 2 of each sample, as a logic analyser has its channels
    /// in one: kind, then rate with S, kS, MS or GS a second. Null when the text is none.
    /// </summary>
    public static StatedSamples? ParseSamples(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        if (text.Split('@') is not [var what, var rate] || !rate.EndsWith("S/s", StringComparison.Ordinal))
        {
            return null;
        }

        bool packed = what.EndsWith(Gzip.Ending, StringComparison.Ordinal);
        what = packed ? what[..^Gzip.Ending.Length] : what;
        SampleArchive archive = !packed && what.EndsWith(ZipEnding, StringComparison.Ordinal) ? SampleArchive.Zip
            : what.EndsWith(TarEnding, StringComparison.Ordinal) ? SampleArchive.Tar : SampleArchive.None;
        what = archive == SampleArchive.None ? what : what[..^TarEnding.Length];
        int? bit = null;
        if (what.EndsWith(']') && what.IndexOf('[', StringComparison.Ordinal) is > 0 and int bracket)
        {
            if (!int.TryParse(what.AsSpan(bracket + 1, what.Length - bracket - 2), NumberStyles.None, CultureInfo.InvariantCulture, out int channel))
            {
                return null;
            }

            (what, bit) = (what[..bracket], channel);
        }

        int found = Array.FindIndex(Kinds, known => known.Word == what);
        int bits = found < 0 ? 0 : Kinds[found].Kind switch { SampleKind.U8 => 8, SampleKind.I16 => 16, _ => 0 };
        string number = rate[..^3];
        int power = number.Length == 0 ? 0 : number[^1] switch { 'k' => 3, 'M' => 6, 'G' => 9, _ => 0 };
        return found >= 0 && (bit is null || bit < bits)
            && DecimalText.Exact(power > 0 ? number[..^1] : number, power) is >= LeastSampleRate and <= MaxSampleRate and long read
                ? new StatedSamples(Kinds[found].Kind, read, packed, bit) { Archive = archive }
                : null;
    }

    /// <summary>Reads "0.4,0.7": two rising numbers, volts, or steps of whole numbers. False when the text is none.</summary>
    public static bool TryParseLevels(string text, SampleKind? samples, out (int Low, int High) levels)
    {
        levels = default;
        int power = samples is SampleKind.U8 or SampleKind.I16 ? 0 : 6;
        long most = power == 0 ? MaxStep : int.MaxValue;
        string[] parts = text.Split(',');
        for (int i = 0; i < parts.Length; i++)
        {
            if (parts.Length != 2 || DecimalText.Exact(parts[i], power) is not { } level || Math.Abs(level) > most)
            {
                return false;
            }

            levels = (levels.High, (int)level);
        }

        return levels.Low < levels.High;
    }
}
