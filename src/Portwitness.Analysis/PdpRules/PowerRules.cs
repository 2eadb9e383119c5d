using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Analysis.PdpRules;

/// <summary>What the power rules ask of one voltage.</summary>
/// <param name="Required">Whether the voltage must be offered.</param>
/// <param name="Minimum">The least current that may be offered, in mA.</param>
/// <param name="Maximum">The largest current that may be offered, in mA.</param>
public readonly record struct CurrentRule(bool Required, int Minimum, int Maximum);

/// <summary>
/// The power rules of fixed supplies (R3.2v1.1, Tables 10.2, 10.3, 10.12 and 10.13). Powers in mW, voltages in mV,
/// currents in mA.
/// </summary>
/// <remarks>
/// The columns for fixed supplies are the same since R2.0v1.2. A current that is PDP / V may be rounded down or up to
/// 10 mA, as the source likes, so that V × I may be a little more or less than the PDP (10.2).
/// </remarks>
public static class PowerRules
{
    /// <summary>Above this a source is an EPR source; its SPR list follows the 100 W row (10.2.3.3).</summary>
    public static readonly int SprMaximumMilliwatts = Electrical.SprMaximumPdp.Milliwatts;

    /// <summary>The largest PDP of all (10.2.3.3).</summary>
    public static readonly int EprMaximumMilliwatts = Electrical.EprMaximumPdp.Milliwatts;

    /// <summary>The connector's limit (10.2.3.3).</summary>
    public static readonly int ConnectorMilliamperes = Electrical.ConnectorMaximum.Milliamperes;

    /// <summary>What a cable without a marker carries (4.4).</summary>
    public static readonly int PlainCableMilliamperes = Electrical.UnmarkedCableMaximum.Milliamperes;

    private static readonly int[] SprNormative = [5000, 9000, 15000, 20000];
    private static readonly int[] EprNormative = [28000, 36000, 48000];

    /// <summary>The normative voltages of SPR, in mV.</summary>
    public static ReadOnlySpan<int> NormativeMillivolts => SprNormative;

    /// <summary>The normative voltages of EPR, in mV.</summary>
    public static ReadOnlySpan<int> EprNormativeMillivolts => EprNormative;

    /// <summary>Powers are told rounded: half a watt or one per cent, in mW (common practice, no source).</summary>
    public static long Rounding(long milliwatts) => Math.Max(500, milliwatts / 100);

    /// <summary>PDP / V rounded down to 10 mA, in mA.</summary>
    public static int RoundDown(long milliwatts, int millivolts) => (int)(milliwatts * 100 / millivolts * 10);

    /// <summary>PDP / V rounded up to 10 mA, in mA.</summary>
    public static int RoundUp(long milliwatts, int millivolts) =>
        (int)(((milliwatts * 100) + millivolts - 1) / millivolts * 10);

    /// <summary>The PDP above which a voltage is normative, in mW; null for a voltage that never is.</summary>
    public static int? NormativeAbove(int millivolts) => millivolts switch
    {
        5000 => 0,
        9000 => 15_000,
        15000 => 27_000,
        20000 => 45_000,
        28000 => 100_000,
        36000 => 140_000,
        48000 => 180_000,
        _ => null,
    };

    /// <summary>The voltage at which EPR AVS ends for a PDP, in mV (Table 10.12).</summary>
    public static int EprAvsEnd(int maximumPdp) => maximumPdp <= 140_000 ? 28000 : maximumPdp <= 180_000 ? 36000 : 48000;

    /// <summary>What is asked of a fixed voltage.</summary>
    /// <param name="millivolts">The voltage.</param>
    /// <param name="maximumPdp">Port Maximum PDP in mW.</param>
    /// <param name="presentPdp">Port Present PDP in mW; the same as the maximum unless the port is constrained.</param>
    /// <param name="inEprMode">Whether it is offered in EPR mode, in which 20 V gives 100 W (10.2.3.3).</param>
    public static CurrentRule For(int millivolts, int maximumPdp, int presentPdp, bool inEprMode = false)
    {
        int power = millivolts > 20000 ? presentPdp : Math.Min(presentPdp, SprMaximumMilliwatts);
        int roundedUp = Math.Min(RoundUp(power, millivolts), ConnectorMilliamperes);
        if (NormativeAbove(millivolts) is not int threshold || maximumPdp <= threshold)
        {
            return new CurrentRule(false, 0, roundedUp);
        }

        bool required = presentPdp > RequiredAbove(millivolts);
        int roundedDown = Math.Min(RoundDown(power, millivolts), ConnectorMilliamperes);

        // 5, 9 and 15 V owe 3 A once the PDP gives more; 20 V owes PDP / 20, but not from an EPR source in SPR mode.
        bool threeAmperesAreEnough = millivolts < 20000
            || (millivolts == 20000 && maximumPdp > SprMaximumMilliwatts && !inEprMode);
        int minimum = threeAmperesAreEnough ? Math.Min(roundedDown, PlainCableMilliamperes) : roundedDown;
        return new CurrentRule(required, required ? minimum : 0, roundedUp);
    }

    // Below, a constrained port need not offer the voltage: Table 10.3, and 10.13 for EPR.
    private static int RequiredAbove(int millivolts) => millivolts switch
    {
        5000 => 0,
        28000 => 27_000,
        36000 => 45_000,
        48000 => 60_000,
        _ => 15_000,
    };

    /// <summary>Whether a PDP rating can have this figure: whole watts, half watts below 10 W (10.1).</summary>
    public static bool IsRatingFigure(int milliwatts) => milliwatts % RatingStep(milliwatts) == 0;

    /// <summary>The figure itself, or the next above that a rating can have, in mW.</summary>
    public static int NextRating(int milliwatts) =>
        (milliwatts + RatingStep(milliwatts) - 1) / RatingStep(milliwatts) * RatingStep(milliwatts);

    /// <summary>Steps in which PDP ratings are printed, in mW.</summary>
    public static int RatingStep(int milliwatts) => milliwatts < 10_000 ? 500 : 1000;

    /// <summary>A power, from mW.</summary>
    public static Power Watts(int milliwatts) => Power.FromMilliwatts(milliwatts);

    /// <summary>A current, from mA.</summary>
    public static Current Amperes(int milliamperes) => Current.FromMilliamperes(milliamperes);

    /// <summary>A voltage, from mV.</summary>
    public static Voltage Volts(int millivolts) => Voltage.FromMillivolts(millivolts);
}
