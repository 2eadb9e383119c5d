using Portwitness.Analysis.Phrases;
using Portwitness.Following.Contracts;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Analysis.Measuring;

/// <summary>What VBUS has to be under a contract, or before the first one (R3.2v1.1, Tables 7.23 and 7.25).</summary>
public sealed record VbusTerms
{
    /// <summary>Default USB power of USB 2.0 (USB Type-C): a source gives no less before a contract.</summary>
    private static readonly Current DefaultCurrent = PowerDelivery.Units.Current.FromMilliamperes(500);

    /// <summary>In words, for example "fixed 20 V 3.25 A"; put together when it is asked for.</summary>
    public Phrase Text => Kind is not { } kind
        ? "vSafe5V before a contract"
        : Phrase.Of($"{kind} {(kind is PowerObjectKind.Variable or PowerObjectKind.Battery ? Phrase.Of($"{Static}") : $"{Nominal}")}")
            + (Current is { } amperes ? Phrase.Of($" {amperes}") : Power is { } watts ? Phrase.Of($" {watts}") : "");

    /// <summary>Kind of the object; null before a contract.</summary>
    public PowerObjectKind? Kind { get; init; }

    /// <summary>Position of the object, counted from 1.</summary>
    public int? Position { get; init; }

    /// <summary>The object's word.</summary>
    public uint Raw { get; init; }

    /// <summary>The voltage asked for or that of the fixed object; the lower one of a range.</summary>
    public required Voltage Nominal { get; init; }

    /// <summary>Where VBUS stays.</summary>
    public required VoltageBand Static { get; init; }

    /// <summary>Where VBUS may be for a moment.</summary>
    public required VoltageBand Valid { get; init; }

    /// <summary>The current that the sink may draw.</summary>
    public Current? Current { get; init; }

    /// <summary>The power that the sink may draw from a battery object.</summary>
    public Power? Power { get; init; }

    /// <summary>PPS Power Limited: above its PDP the source may give less current (6.4.1.2.4.1.1).</summary>
    public bool PowerLimited { get; init; }

    /// <summary>Asked for in EPR mode.</summary>
    public bool InEprMode { get; init; }

    /// <summary>Whether the source limits the current instead of keeping the voltage.</summary>
    public bool IsPps => Kind == PowerObjectKind.Pps;

    /// <summary>An adjustable supply, whose voltage is asked for in steps.</summary>
    public bool IsAdjustable => Kind is PowerObjectKind.Pps or PowerObjectKind.SprAvs or PowerObjectKind.EprAvs;

    /// <summary>vSafe5V, as it is before a contract.</summary>
    public static VbusTerms BeforeContract { get; } = new()
    {
        Nominal = Electrical.Safe5V,
        Static = VbusLimits.Safe5V,
        Valid = VbusLimits.Safe5V.WidenedBy(VbusLimits.SrcValid),
        Current = DefaultCurrent,
    };

    /// <summary>The terms of a request that was accepted; null when the capture does not show what they are.</summary>
    public static VbusTerms? Of(in ContractAttempt contract, OfferedObject? selected)
    {
        if (selected is not { KindIsKnown: true, IsZero: false } offered || Band(contract, offered) is not { } band)
        {
            return null;
        }

        bool isPps = offered.Kind == PowerObjectKind.Pps;
        return new VbusTerms
        {
            Kind = offered.Kind,
            Position = contract.ObjectPosition,
            Raw = offered.Raw,
            Nominal = Asked(contract, offered) ?? band.Minimum,
            Static = band,
            Valid = band.WidenedBy(isPps ? VbusLimits.PpsValid : VbusLimits.SrcValid),
            Current = contract.Current,
            Power = offered.Kind == PowerObjectKind.Battery ? contract.Power : null,
            PowerLimited = isPps && (offered.Known & PpsSourceSupply.PowerLimitedField.Mask & ~offered.Raw) == 0,
            InEprMode = contract.InEprMode,
        };
    }

    /// <summary>Whether a step stays within one adjustable object.</summary>
    public bool IsSameObjectAs(VbusTerms other) =>
        IsAdjustable && (Kind, Position, Raw) == (other.Kind, other.Position, other.Raw);

    /// <summary>From GoodCRC of Accept until VBUS has to be where it should, at the latest; of two readings the longer.</summary>
    public long SettleUs(VbusTerms? before)
    {
        if (before is not null && IsSameObjectAs(before))
        {
            int step = Math.Abs(Nominal.Millivolts - before.Nominal.Millivolts);
            return IsPps
                ? step <= VbusLimits.PpsSmallStep.Millivolts ? VbusLimits.PpsSrcTransSmallUs : VbusLimits.PpsSrcTransLargeUs
                : step <= VbusLimits.AvsSmallStep.Millivolts ? VbusLimits.AvsSrcTransSmallUs : VbusLimits.AvsSrcTransLargeUs;
        }

        long settle = VbusLimits.SrcTransitionMaximumUs
            + (InEprMode || before is { InEprMode: true } ? VbusLimits.SrcSettleEprUs : VbusLimits.SrcSettleSprUs);
        return IsAdjustable && !IsPps ? Math.Max(settle, VbusLimits.AvsSrcTransLargeUs) : settle;
    }

    private static Voltage? Asked(in ContractAttempt contract, OfferedObject offered) =>
        offered.Kind == PowerObjectKind.Fixed ? offered.HighestVoltage() : contract.Voltage;

    private static VoltageBand? Band(in ContractAttempt contract, OfferedObject offered) => offered.Kind switch
    {
        PowerObjectKind.Fixed => Asked(contract, offered) is { } nominal ? VbusLimits.OfFixed(nominal) : null,
        PowerObjectKind.Battery or PowerObjectKind.Variable =>
            offered.LowestVoltage() is { } low && offered.HighestVoltage() is { } high ? new VoltageBand(low, high) : null,
        PowerObjectKind.Pps or PowerObjectKind.SprAvs or PowerObjectKind.EprAvs =>
            contract.Voltage is { } asked ? VbusLimits.Around(asked) : null,
        _ => null,
    };
}
