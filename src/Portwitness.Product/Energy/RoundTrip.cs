using System.Collections.Immutable;
using Portwitness.Product.Decisions;

namespace Portwitness.Product.Energy;

/// <summary>What comes out of a pack over what went in: a whole discharge from full, and a charge to its end after the pack was empty.</summary>
/// <param name="Charge">The charge.</param>
/// <param name="Discharge">The discharge.</param>
public sealed record RoundTrip(MeasuredLog Charge, MeasuredLog Discharge)
{
    /// <summary>In millionths.</summary>
    public long Ppm => (long)((Int128)Discharge.Energy.Value * 1_000_000 / Charge.Charging!.MicrowattHours);

    /// <summary>Its expanded uncertainty, k = 2, in millionths: both meters are off on their own.</summary>
    public long ExpandedPpm => Uncertainty.Expanded([(Ppm / 1_000_000d, Share(Discharge)), (Ppm / 1_000_000d, Share(Charge))]);

    /// <summary>The whole charge with the most energy and the whole discharge with the most; null where one of them is missing, or its units are a guess.</summary>
    public static RoundTrip? Of(ImmutableArray<MeasuredLog> logs)
    {
        MeasuredLog? charge = logs.Where(static log => log is { UnitsAssumed: false, Charging: { EndedAtUs: not null, MicrowattHours: > 0 }, Log.BegunFull: not false })
            .MaxBy(static log => log.Charging!.MicrowattHours);
        MeasuredLog? discharge = logs.Where(static log => log is { UnitsAssumed: false, RanOut: true, Log: { Kind: LogKind.Discharge, BegunFull: not false } }).MaxBy(static log => log.Energy.Value);
        return charge is null || discharge is null || discharge.Energy.Value <= 0 ? null : new RoundTrip(charge, discharge);
    }

    private static double Share(MeasuredLog log) => (log.Energy.Value - log.Energy.Least) * 1_000_000d / Math.Max(1, log.Energy.Value);
}
