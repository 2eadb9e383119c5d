using Portwitness.Captures.Tables;

namespace Portwitness.Captures.Measurements;

/// <summary>Measurements of another instrument that are joined into a capture: a table of time, volts and amps.</summary>
public sealed record MeasurementOptions
{
    /// <summary>The farthest that measurements can be moved, in microseconds: ten years.</summary>
    public const long MaxOffsetUs = 3650L * 86_400_000_000;

    private const int MicrosecondPower = 6;

    /// <summary>Which columns hold what, and their units; empty when the headings say it.</summary>
    public TableMapping Columns { get; init; } = new();

    /// <summary>Microseconds that are added to the table's times: when the measuring began, as the capture counts.</summary>
    public long OffsetUs { get; init; }

    /// <summary>Where they were taken; not stated, the capture's header says it.</summary>
    public MeasuringPoint MeasuredAt { get; init; }

    /// <summary>How far they may be off; null when the capture's header says it.</summary>
    public MeasuringAccuracy? Accuracy { get; init; }

    /// <summary>Reads an offset such as "1.25s", "-40ms" or "10us".</summary>
    /// <param name="text">A number and its unit.</param>
    /// <param name="microseconds">The offset.</param>
    /// <returns>Whether it is one, and not above ten years.</returns>
    public static bool TryParseOffset(string text, out long microseconds)
    {
        microseconds = 0;
        int end = text.AsSpan().TrimEnd().LastIndexOfAnyInRange('0', '9') + 1;
        return !text.Contains(':') && TableUnits.Find("time", text[end..].Trim()) is { } unit
            && unit.TryRead(System.Text.Encoding.UTF8.GetBytes(text[..end].Trim()), MicrosecondPower, out microseconds)
            && Int128.Abs(microseconds) <= MaxOffsetUs;
    }
}
