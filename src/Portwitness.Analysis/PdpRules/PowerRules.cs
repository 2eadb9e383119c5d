using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Analysis.PdpRules;

/// <summary>What the power rules ask of one voltage.</summary>
/// <param name="Required">Whether the voltage must be offered.</param>
/// <param name="Minimum">The least current that may be offered, in mA.</param>
/// <param name="Maximum">The largest current that may be offered, in mA.</param>
public readonly record struct CurrentRule(bool Required, int Minimum, int Maximum);

/// <summary>
/// The SPR power rules (R3.2v1.1, Tables 10.2 and 10.3). Powers in mW, voltages in mV, currents in mA.
/// </summary>
/// <remarks>
/// The columns for fixed supplies are the same since R2.0v1.2. A current that is PDP / V may be rounded down or up to
/// 10 mA, as the source likes, so that V × I may be a little more or less than the PDP (10.2).
/// </remarks>
public static class PowerRules
{
    /// <summary>Above this a source is an EPR source; its SPR list follows the 100 W row (10.2.3.3).</summary>
    public static readonly int SprMaximumMilliwatts = Electrical.SprMaximumPdp.Milliwatts;

    /// <summary>The connector's limit (10.2.3.3).</summary>
    public static readonly int ConnectorMilliamperes = Electrical.ConnectorMaximum.Milliamperes;

    /// <summary>What a cable without a marker carries (4.4).</summary>
    public static readonly int PlainCableMilliamperes = Electrical.UnmarkedCableMaximum.Milliamperes;

    /// <summary>The normative voltages of SPR, in mV.</summary>
    public static ReadOnlySpan<int> NormativeMillivolts => [5000, 9000, 15000, 20000];

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
        _ => null,
    };

    /// <summary>What is asked of a fixed voltage.</summary>
    /// <param name="millivolts">The voltage.</param>
    /// <param name="maximumPdp">Port Maximum PDP in mW.</param>
    /// <param name="presentPdp">Port Present PDP in mW; the same as the maximum unless the port is constrained.</param>
    public static CurrentRule For(int millivolts, int maximumPdp, int presentPdp)
    {
        int spr = Math.Min(presentPdp, SprMaximumMilliwatts);
        int roundedUp = Math.Min(RoundUp(spr, millivolts), ConnectorMilliamperes);
        if (NormativeAbove(millivolts) is not int threshold || maximumPdp <= threshold)
        {
            return new CurrentRule(false, 0, roundedUp);
        }

        // Table 10.3: up to 15 W of present PDP everything but 5 V is a "may".
        bool required = millivolts == 5000 || presentPdp > 15_000;
        int roundedDown = Math.Min(RoundDown(spr, millivolts), ConnectorMilliamperes);

        // 5, 9 and 15 V owe 3 A once the PDP gives more; 20 V owes PDP / 20, but not from an EPR source in SPR mode.
        bool threeAmperesAreEnough = millivolts != 20000 || maximumPdp > SprMaximumMilliwatts;
        int minimum = threeAmperesAreEnough ? Math.Min(roundedDown, PlainCableMilliamperes) : roundedDown;
        return new CurrentRule(required, required ? minimum : 0, roundedUp);
    }

    /// <summary>A power for people, from mW.</summary>
    public static string Watts(int milliwatts) => Power.FromMilliwatts(milliwatts).ToString();

    /// <summary>A current for people, from mA.</summary>
    public static string Amperes(int milliamperes) => Current.FromMilliamperes(milliamperes).ToString();

    /// <summary>A voltage for people, from mV.</summary>
    public static string Volts(int millivolts) => Voltage.FromMillivolts(millivolts).ToString();
}
