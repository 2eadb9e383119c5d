using System.Collections.Immutable;

namespace Portwitness.Product.Energy;

/// <summary>How a charge went: its plateau, when it fell, and when parts of the energy were in.</summary>
/// <remarks>Per cent are of the energy that was taken, not what a device shows. Powers are means of windows of ten seconds (common practice, no source).</remarks>
public sealed record ChargeCurve
{
    /// <summary>Per cent of the energy taken of which the time is told (common practice, no source).</summary>
    public static ImmutableArray<int> Marks { get; } = [50, 80, 99];

    /// <summary>The charge is over when the power stays below this share of the plateau, in per cent, for five minutes (common practice, no source).</summary>
    public const int EndPercent = 5;

    /// <summary>Or below so much, in mW (common practice, no source).</summary>
    public const long EndMilliwatts = 500;

    /// <summary>The highest mean of ten seconds, in mW.</summary>
    public required long PeakMilliwatts { get; init; }

    /// <summary>The mean until the end, in mW.</summary>
    public required long MeanMilliwatts { get; init; }

    /// <summary>Energy until the end, in µWh.</summary>
    public required long MicrowattHours { get; init; }

    /// <summary>When the power left the plateau, within 5 % of its peak, for a minute, in µs from the first row; null for never.</summary>
    public required long? ConstantUntilUs { get; init; }

    /// <summary>When it ended by the criterion, in µs from the first row; null where the log ends before.</summary>
    public required long? EndedAtUs { get; init; }

    /// <summary>When each of the marks was reached, in µs from the first row; null without energy.</summary>
    public required ImmutableArray<long?> AtMarks { get; init; }
}
