using System.Text.Json;

namespace Portwitness.Captures.JsonLines;

/// <summary>Writes how well a frame was sent as members of its line.</summary>
internal static class QualityText
{
    public static void Write(Utf8JsonWriter json, in FrameQuality quality)
    {
        Number(json, "bit_rate"u8, quality.BitsPerSecond);
        Number(json, "bit_rate_pm"u8, quality.RateUncertainty);
        Number(json, "drift_ppm"u8, quality.DriftPpm);
        Number(json, "jitter_ns"u8, quality.JitterNs);
        Number(json, "preamble_bits"u8, quality.PreambleBits);
        Number(json, "set_symbols"u8, quality.SetSymbols);
        Number(json, "glitches"u8, quality.Glitches);
    }

    private static void Number(Utf8JsonWriter json, ReadOnlySpan<byte> name, int? value)
    {
        if (value is { } number)
        {
            json.WriteNumber(name, number);
        }
    }
}
