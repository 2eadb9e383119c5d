using System.Globalization;

namespace Portwitness.Captures;

/// <summary>Texts about recordings of the CC line.</summary>
internal static partial class FaultText
{
    public static string SignalChosen(string name) => $"Of several signals \"{Printable(name)}\" has frames, and was read. Name another with --signal.";

    public static string SignalTurned(string name, string timeUs) => $"From {timeUs} µs on frames are on \"{Printable(name)}\": the plug was turned, and the recording goes on there.";

    public const string VcdTimescaleMissing =
        "No $timescale that can be used before the values, so no time is known and nothing was read. "
        + "Expected 1, 10 or 100 of s, ms, us, ns, ps or fs, for example $timescale 1 ns $end.";

    public const string VcdTimeInvalid =
        "This is no time that can be used; values after it count as of the time before. "
        + "Expected # and a whole number; times up to 53 days are read.";

    public const string VcdTimeBackwards =
        "The time is before the one above; values after it count as of the time above. Export one run into one file.";

    public const string VcdTokenTooLong = "A word of more than 1024 bytes; it was skipped. No identifier is that long.";

    public const string VcdEnded = "The file ends before $enddefinitions, so it holds no values. Export it again.";

    public const string SamplesCut = "The last sample is not whole; it was left out. Check the kind of samples.";

    public const string TableTimeBackwards =
        "The time is before that of the row above; the row was left out. Export one run into one file.";

    public const string TableRowInvalid =
        "The row has no number where time and voltage stand; the line counts as unknown from the row above to the row below. "
        + "Expected numbers, for example 0.00000125,0.562.";

    public const string VoltageInvalid =
        "The line has no number, so the voltage of the line above was taken for this sample. Expected one number on a line.";

    public static string WaveformWithoutFrames(long edges) =>
        string.Create(CultureInfo.InvariantCulture, $"No frame was found; the line changes its level {edges} times. ")
        + "Expected the CC line, at 1 MS/s or more. Check the signal, the rate of samples, and the levels.";

    public static string VcdTokenInvalid(ReadOnlySpan<byte> token) =>
        $"{Excerpt(token)} is nothing that a VCD file has here; it was left out.";

    public static string SignalMissing(string signal, string known) =>
        $"There is no signal '{Printable(signal)}' of one bit or a voltage, and nothing was read. Known: {known}.";

    public static string SignalAmbiguous(string known) =>
        $"Several signals may be the CC line, and nothing was read. Name one of them with its scopes: {known}.";

    /// <summary>A name from the input, fit for a terminal.</summary>
    public static string Printable(string name) => Excerpt(System.Text.Encoding.UTF8.GetBytes(name), longest: 80)[1..^1];
}
