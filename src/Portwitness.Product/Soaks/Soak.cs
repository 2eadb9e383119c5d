using System.Collections.Immutable;
using Portwitness.Analysis;
using Portwitness.Analysis.Bench;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Profile;
using Portwitness.Labels;
using Portwitness.Product.Energy;

namespace Portwitness.Product.Soaks;

/// <summary>Whether a source said that it would give less.</summary>
public enum Announcement
{
    /// <summary>No capture ran beside the log, or it does not reach so far.</summary>
    Unknown,

    /// <summary>A list, an Alert, a Source_Info or a Hard Reset came.</summary>
    Announced,

    /// <summary>A capture ran beside it, and shows nothing.</summary>
    Silent,
}

/// <summary>A load that was held, with what is printed of it and what the source said meanwhile.</summary>
/// <param name="Log">The log.</param>
/// <param name="Power">Its power over time.</param>
/// <param name="Printed">The printed mode at its voltage; null when none is.</param>
/// <param name="IsPack">Whether it runs on cells, which are empty at some time.</param>
/// <param name="Touch">What is touched; null when it is not stated.</param>
public sealed record Soak(MeasuredLog Log, SustainedPower Power, PrintedFixed? Printed, bool IsPack, TouchRow? Touch)
{
    /// <summary>A shorter load says nothing of how long (common practice, no source).</summary>
    public const long LeastUs = 5 * 60_000_000L;

    // What announces a fall comes within so long before it, and a log's clock is read by hand (common practice, no source).
    private const long BeforeUs = 60_000_000;
    private const long BehindUs = 15_000_000;

    /// <summary>Whether the source said that it would give less.</summary>
    public Announcement Announcement { get; init; }

    /// <summary>What it said; empty for nothing.</summary>
    public Phrase Said { get; init; } = Phrase.Empty;

    /// <summary>The printed power at the load's voltage, in mW; null when none is printed.</summary>
    public long? PrintedMilliwatts => Printed is { } mode ? (long)mode.Voltage.Millivolts * mode.Current.Milliamperes / 1000 : null;

    /// <summary>Whether the load asked for as much as is printed: it drew 98 % of it in the first minute.</summary>
    public bool AsksForPrinted => PrintedMilliwatts is { } printed && Power.FirstMilliwatts * 100 >= printed * 98;

    /// <summary>Whether the source gave less while the load asked for as much: its voltage left its limits, or went off.</summary>
    public bool IsOfSource => Power.Fall == PowerFall.Off
        || (Power.Fall == PowerFall.Voltage && Log.Limits is { } limits && Power.AtFall.Microvolts < Log.Meter.SurelyBelow(limits.Minimum.Millivolts * 1000L));

    /// <summary>All soaks of a product, and every other log of a load that was held for long.</summary>
    public static ImmutableArray<Soak> Of(ProductEnergy energy, IReadOnlyList<CaptureAnalysis> captures, TouchRow? touch) =>
    [
        .. energy.Logs.Where(static log => log is { Log.Kind: LogKind.Discharge, UnitsAssumed: false, Sustained: { } power } && (log.Log.IsSoak || power.ForUs >= LeastUs))
            .Select(log => new Soak(log, log.Sustained!, energy.Printed(log), energy.IsPack, touch).With(captures)),
    ];

    private Soak With(IReadOnlyList<CaptureAnalysis> captures)
    {
        if (Power.FellAtUs is not { } fell || Log.Log.With is not { } file || captures.FirstOrDefault(one => one.File == file) is not { IsUsable: true } capture)
        {
            return this;
        }

        long at = Power.StartUs + fell + Log.Log.OffsetUs;
        bool IsNear(long time) => time >= at - BeforeUs && time <= at + BehindUs;
        Advertisement? list = capture.Advertisements.Skip(1).FirstOrDefault(one => one.Message.IsSourceList && IsNear(one.TimeUs));
        Forewarning? warning = capture.Bench.Forewarnings.FirstOrDefault(one => one.Kind != ForewarningKind.Request && IsNear(one.TimeUs));
        return list is not null ? this with { Announcement = Announcement.Announced, Said = $"another list in message {list.MessageIndex} of {file}" }
            : warning is not null ? this with { Announcement = Announcement.Announced, Said = warning.Words }
            : capture.Bench.EndUs >= at ? this with { Announcement = Announcement.Silent } : this;
    }
}
