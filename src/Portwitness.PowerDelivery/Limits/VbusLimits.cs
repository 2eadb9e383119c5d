using Portwitness.PowerDelivery.Units;

namespace Portwitness.PowerDelivery.Limits;

/// <summary>
/// What a source's VBUS may do (R3.2v1.1, Tables 7.23 and 7.25, at the source's connector), under the standard's names.
/// Times in microseconds; those of the standard's tables of times are from <see cref="TimingLimits"/>.
/// </summary>
public static class VbusLimits
{
    /// <summary>vSrcNew of a fixed supply, vPpsNew, vAvsNew: 5 % to either side.</summary>
    public const int TolerancePercent = 5;

    /// <summary>vPpsShutdown, lower end: per cent of the object's minimum voltage; a PPS source that limits its current may go down so far.</summary>
    public const int PpsShutdownPercent = 85;

    /// <summary>vSrcSlewPos, vSrcSlewNeg and their like of PPS and AVS: mV in a microsecond.</summary>
    public const int SlewMillivoltsPerUs = 30;

    /// <summary>How long VBUS may be outside vSrcNew after a load step below <see cref="LargeLoadStep"/>.</summary>
    public const long TransientUs = 150_000;

    /// <summary>How long VBUS may be outside vSrcNew after a load step of <see cref="LargeLoadStep"/> and more.</summary>
    public const long LargeStepTransientUs = 5_000;

    /// <summary>A load step from which on the shorter time holds (7.1.8).</summary>
    public static readonly Current LargeLoadStep = Current.FromMilliamperes(60);

    /// <summary>tSrcTransition minimum: VBUS does not move sooner after GoodCRC of Accept.</summary>
    public static readonly long SrcTransitionMinimumUs = TimingLimits.ShortestUs(TimingLimits.TSrcTransition);

    /// <summary>tSrcTransition maximum.</summary>
    public static readonly long SrcTransitionMaximumUs = TimingLimits.LongestUs(TimingLimits.TSrcTransition);

    /// <summary>tSrcSettle in SPR mode: from where VBUS begins to move to vSrcNew.</summary>
    public static readonly long SrcSettleSprUs = TimingLimits.LongestUs(TimingLimits.TSrcSettleSpr);

    /// <summary>tSrcSettle in EPR mode, since R3.1.</summary>
    public static readonly long SrcSettleEprUs = TimingLimits.LongestUs(TimingLimits.TSrcSettleEpr);

    /// <summary>tPpsSrcTransSmall: from GoodCRC of Accept, for steps up to vPpsSmallStep within one object.</summary>
    public static readonly long PpsSrcTransSmallUs = TimingLimits.LongestUs(TimingLimits.TPpsSrcTransSmall);

    /// <summary>tPpsSrcTransLarge: for larger steps.</summary>
    public static readonly long PpsSrcTransLargeUs = TimingLimits.LongestUs(TimingLimits.TPpsSrcTransLarge);

    /// <summary>tAvsSrcTransSmall: from GoodCRC of Accept, for steps up to vAvsSmallStep within one object.</summary>
    public static readonly long AvsSrcTransSmallUs = TimingLimits.LongestUs(TimingLimits.TAvsSrcTransSmall);

    /// <summary>tAvsSrcTransLarge: for larger steps, and when AVS is entered.</summary>
    public static readonly long AvsSrcTransLargeUs = TimingLimits.LongestUs(TimingLimits.TAvsSrcTransLarge);

    /// <summary>tPSHardReset minimum: VBUS does not fall sooner after a Hard Reset.</summary>
    public static readonly long PSHardResetMinimumUs = TimingLimits.ShortestUs(TimingLimits.TPSHardReset);

    /// <summary>tSrcTurnOn maximum: from where VBUS is turned on to vSafe5V.</summary>
    public static readonly long SrcTurnOnUs = TimingLimits.LongestUs(TimingLimits.TSrcTurnOn);

    /// <summary>tPSHardReset maximum: Hard Reset to VBUS falling.</summary>
    public static readonly long PSHardResetMaximumUs = TimingLimits.LongestUs(TimingLimits.TPSHardReset);

    /// <summary>tSafe0V maximum: from there to vSafe0V.</summary>
    public static readonly long Safe0VUs = TimingLimits.LongestUs(TimingLimits.TSafe0V);

    /// <summary>tSrcRecover minimum in SPR mode: vSafe0V to VBUS on again.</summary>
    public static readonly long SrcRecoverSprMinimumUs = TimingLimits.ShortestUs(TimingLimits.TSrcRecoverSpr);

    /// <summary>tSrcRecover maximum in SPR mode.</summary>
    public static readonly long SrcRecoverSprMaximumUs = TimingLimits.LongestUs(TimingLimits.TSrcRecoverSpr);

    /// <summary>tSrcRecover minimum in EPR mode, since R3.1.</summary>
    public static readonly long SrcRecoverEprMinimumUs = TimingLimits.ShortestUs(TimingLimits.TSrcRecoverEpr);

    /// <summary>tSrcRecover maximum in EPR mode, since R3.1.</summary>
    public static readonly long SrcRecoverEprMaximumUs = TimingLimits.LongestUs(TimingLimits.TSrcRecoverEpr);

    /// <summary>How long a PPS source may take to get hold of a current above its limit (from memory, tPpsCVCLTransient).</summary>
    public const long PpsLimitingUs = 275_000;

    /// <summary>How long VBUS may stay after a detach (from memory, tVBUSOFF of USB Type-C).</summary>
    public const long VbusOffUs = 650_000;

    /// <summary>What a cable at its rated current may lose over VBUS and ground together (from memory, USB Type-C).</summary>
    public static readonly Voltage CableDrop = Voltage.FromMillivolts(750);

    /// <summary>vSafe5V.</summary>
    public static readonly VoltageBand Safe5V = new(Electrical.Safe5VMinimum, Electrical.Safe5VMaximum);

    /// <summary>vPpsSmallStep.</summary>
    public static readonly Voltage PpsSmallStep = Voltage.FromMillivolts(500);

    /// <summary>vAvsSmallStep.</summary>
    public static readonly Voltage AvsSmallStep = Voltage.FromMillivolts(1_000);

    /// <summary>vSrcValid and vAvsValid: so far VBUS may leave vSrcNew, vAvsNew or vSafe5V for a moment.</summary>
    public static readonly Voltage SrcValid = Voltage.FromMillivolts(500);

    /// <summary>vPpsValid.</summary>
    public static readonly Voltage PpsValid = Voltage.FromMillivolts(100);

    /// <summary>vSrcNew, vPpsNew or vAvsNew of a nominal voltage, ends rounded inward to the millivolt.</summary>
    public static VoltageBand Around(Voltage nominal)
    {
        int part = nominal.Millivolts * TolerancePercent / 100;
        return new VoltageBand(Voltage.FromMillivolts(nominal.Millivolts - part), Voltage.FromMillivolts(nominal.Millivolts + part));
    }

    /// <summary>
    /// The static limit of a fixed supply. That of 5 V is vSrcNew or vSafe5V, whichever applies (7.1.8); a contract at 5.4 V
    /// is no clear fault, so vSafe5V is taken.
    /// </summary>
    public static VoltageBand OfFixed(Voltage nominal) => nominal == Electrical.Safe5V ? Safe5V : Around(nominal);

    /// <summary>
    /// iPpsCLNew, upper end: 150 mA up to 3 A, 5 % above; a request below iPpsCLMin is limited at iPpsCLMin (7.1.4.2.2).
    /// </summary>
    public static Current PpsCurrentLimitMaximum(Current operating)
    {
        int limit = Math.Max(operating.Milliamperes, Electrical.PpsCurrentLimitMinimum.Milliamperes);
        return Current.FromMilliamperes(limit + PpsCurrentLimitTolerance(limit));
    }

    /// <summary>iPpsCLNew, lower end.</summary>
    public static Current PpsCurrentLimitMinimum(Current operating) =>
        Current.FromMilliamperes(operating.Milliamperes - PpsCurrentLimitTolerance(operating.Milliamperes));

    private static int PpsCurrentLimitTolerance(int milliamperes) => milliamperes > 3_000 ? milliamperes * 5 / 100 : 150;
}
