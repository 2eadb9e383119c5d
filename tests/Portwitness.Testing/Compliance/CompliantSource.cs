using System.Collections.Immutable;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Testing.Compliance;

/// <summary>What a source offers beside its normative supplies.</summary>
public enum Extra
{
    None,
    Battery,
    Variable,
    Voltage8,
    Voltage12,
}

/// <summary>
/// A source that keeps the rules, and the lists that it sends. Its objects are computed from R3.2v1.1, Tables 10.2, 10.3,
/// 10.10 to 10.13 and 10.2, 6.4.1.4, 6.5.15.1, row by row, and not from the code under test. Powers in mW, currents in mA.
/// </summary>
public sealed record CompliantSource
{
    public required int Maximum { get; init; }

    /// <summary>Less than the maximum when other ports, heat or a weak input reduce it.</summary>
    public required int Present { get; init; }

    public required Editions Edition { get; init; }

    /// <summary>PDP / V rounded up to 10 mA; otherwise down (10.2).</summary>
    public bool RoundUp { get; init; }

    /// <summary>What the cable carries; a 5 A cable of an EPR source is an EPR cable.</summary>
    public int CableMilliamperes { get; init; } = 5000;

    /// <summary>"3 A at least" at the upper end of what is allowed.</summary>
    public bool High { get; init; }

    /// <summary>Lower end of the PPS ranges in mV; 0 for a source without PPS. 3000 and 3300 stand for R3.0 and R3.1.</summary>
    public int PpsMinimum { get; init; }

    public Extra Extra { get; init; }

    /// <summary>Voltages that are a "may" at a present PDP of up to 15 W (Table 10.3) are left out.</summary>
    public bool LeavesOutWhatMay { get; init; }

    /// <summary>What an EPR source gives at 20 V in SPR mode, where it may be less than 5 A (10.2.3.3).</summary>
    public int SprModeAt20V { get; init; } = 5000;

    public bool IsEpr => Maximum > 100_000;

    public bool IsReduced => Present < Maximum;

    /// <summary>Source_Capabilities.</summary>
    public ImmutableArray<uint> Spr => SprObjects(false);

    /// <summary>EPR_Source_Capabilities in EPR mode: 100 W at 20 V.</summary>
    public ImmutableArray<uint> Epr => WithEprObjects(SprObjects(true));

    /// <summary>EPR_Source_Capabilities as the answer to EPR_Get_Source_Cap in SPR mode.</summary>
    public ImmutableArray<uint> EprInSprMode => WithEprObjects(SprObjects(false));

    /// <summary>Whether the objects fit into a list of seven.</summary>
    public bool Fits => Spr.Length <= 7;

    private int SprPower => Math.Min(Present, 100_000);

    public override string ToString() =>
        $"{Maximum / 1000m} W, now {Present / 1000m} W, {Edition.ToText()}, {(RoundUp ? "up" : "down")}, cable {CableMilliamperes} mA"
        + $"{(High ? ", high" : "")}, PPS from {PpsMinimum} mV, {Extra}{(LeavesOutWhatMay ? ", short" : "")}, 20 V {SprModeAt20V} mA";

    /// <summary>The fixed supplies of SPR: mV and mA.</summary>
    public IReadOnlyList<(int Millivolts, int Milliamperes)> Fixed(bool inEprMode)
    {
        List<(int, int)> list = [];
        Add(list, 5000, 0, 15_000, inEprMode);
        Add(list, 9000, 15_000, 27_000, inEprMode);
        Add(list, 15000, 27_000, 45_000, inEprMode);
        Add(list, 20000, 45_000, int.MaxValue, inEprMode);
        return list;
    }

    // Table 10.2 and 10.3: PDP / V up to a row of the voltage, at least 3 A above it.
    private void Add(List<(int, int)> list, int millivolts, int normativeAbove, int exactUpTo, bool inEprMode)
    {
        bool may = Present <= 15_000 && millivolts > 5000;
        if (Maximum <= normativeAbove || (may && LeavesOutWhatMay))
        {
            return;
        }

        int exact = Math.Min(Round(SprPower, millivolts), 5000);
        int current = Present <= exactUpTo ? exact : High ? exact : 3000;
        if (millivolts == 20000 && IsEpr && !inEprMode)
        {
            current = Math.Min(current, SprModeAt20V);
        }

        list.Add((millivolts, Math.Min(current, CableMilliamperes)));
    }

    private int Round(int milliwatts, int millivolts) => RoundUp
        ? (int)(((milliwatts * 100L) + millivolts - 1) / millivolts) * 10
        : (int)(milliwatts * 100L / millivolts) * 10;

    private ImmutableArray<uint> SprObjects(bool inEprMode)
    {
        List<uint> words = [];
        foreach ((int millivolts, int milliamperes) in FixedWithExtra(inEprMode))
        {
            FixedSourceSupply supply = FixedSourceSupply.Create(V(millivolts), A(milliamperes));
            if (words.Count == 0)
            {
                supply = supply.With(FixedSourceSupply.UnconstrainedPowerField, true).With(FixedSourceSupply.EprCapableField, IsEpr);
            }

            words.Add(supply.Raw);
        }

        if (Extra == Extra.Battery)
        {
            words.Add(BatterySourceSupply.Create(V(3300), V(Edition == Editions.R32 ? 9000 : 21000), Power.FromMilliwatts(SprPower / 250 * 250)).Raw);
        }
        else if (Extra == Extra.Variable)
        {
            words.Add(VariableSourceSupply.Create(V(4750), V(5500), A(Math.Min(SprPower * 100 / 5500 * 10, 3000))).Raw);
        }

        if (Edition == Editions.R32 && Maximum > 27_000 && Current(15000, inEprMode) is { } to15)
        {
            words.Add(SprAvsSourceSupply.Create(A(to15), A(Current(20000, inEprMode) ?? 0)).Raw);
        }

        foreach ((int prog, int current) in Progs(inEprMode))
        {
            int end = prog switch { 5000 => 5900, 9000 => 11000, 15000 => 16000, _ => 21000 };
            words.Add(PpsSourceSupply.Create(V(PpsMinimum), V(end), A(current)).Raw);
        }

        return [.. words];
    }

    private int? Current(int millivolts, bool inEprMode)
    {
        foreach ((int voltage, int current) in Fixed(inEprMode))
        {
            if (voltage == millivolts)
            {
                return current;
            }
        }

        return null;
    }

    private IEnumerable<(int Millivolts, int Milliamperes)> FixedWithExtra(bool inEprMode)
    {
        int optional = Extra switch { Extra.Voltage8 => 8000, Extra.Voltage12 => 12000, _ => 0 };
        int current = optional == 0 ? 0 : Math.Min(Round(SprPower, optional), 3000);
        return optional == 0 ? Fixed(inEprMode) : Fixed(inEprMode).Append((optional, current)).OrderBy(supply => supply.Item1);
    }

    // Table 10.10: the programmable ranges that a source with PPS offers, by its PDP.
    private List<(int Prog, int Current)> Progs(bool inEprMode)
    {
        List<(int, int)> list = [];
        if (PpsMinimum == 0)
        {
            return list;
        }

        int x = SprPower;
        if (PpsMinimum < 5000)
        {
            list.Add((5000, Math.Min(Down50(x, 5000), 3000)));
        }

        if (x is > 15_000 and < 45_000)
        {
            list.Add((9000, x <= 27_000 ? Down50(x, 9000) : 3000));
        }

        if (x is > 27_000 and < 60_000)
        {
            list.Add((15000, x <= 45_000 ? Down50(x, 15000) : 3000));
        }

        if (x > 45_000)
        {
            int most = IsEpr && !inEprMode ? SprModeAt20V / 50 * 50 : 5000;
            list.Add((20000, Math.Min(Math.Min(Down50(x, 20000), most), CableMilliamperes)));
        }

        // Not required at this PDP: PDP / Prog voltage all the same.
        if (list.Count == 0)
        {
            list.Add((9000, Down50(x, 9000)));
        }

        return list;
    }

    // Tables 10.12 and 10.13. Over a 3 A cable nothing of EPR is in force; what is listed needs an EPR cable.
    private ImmutableArray<uint> WithEprObjects(ImmutableArray<uint> spr)
    {
        List<uint> words = [.. spr, .. Enumerable.Repeat(0u, 7 - spr.Length)];
        foreach ((int millivolts, int above, int mayUpTo) in new[] { (28000, 100_000, 27_000), (36000, 140_000, 45_000), (48000, 180_000, 60_000) })
        {
            if (Maximum > above && !(LeavesOutWhatMay && Present <= mayUpTo))
            {
                words.Add(FixedSourceSupply.Create(V(millivolts), A(Math.Min(Round(Present, millivolts), 5000))).Raw);
            }
        }

        int end = Maximum <= 140_000 ? 28000 : Maximum <= 180_000 ? 36000 : 48000;
        words.Add(EprAvsSourceSupply.Create(V(15000), V(end), Power.FromMilliwatts(Present / 1000 * 1000)).Raw);
        return [.. words];
    }

    private static int Down50(int milliwatts, int millivolts) => (int)Math.Min((long)milliwatts * 1000 / millivolts / 50 * 50, 5000);

    private static Voltage V(int millivolts) => Voltage.FromMillivolts(millivolts);

    private static Current A(int milliamperes) => Portwitness.PowerDelivery.Units.Current.FromMilliamperes(milliamperes);
}
