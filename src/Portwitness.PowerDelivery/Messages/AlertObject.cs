using System.Collections.Immutable;
using Portwitness.PowerDelivery.Layout;

namespace Portwitness.PowerDelivery.Messages;

/// <summary>The object of an Alert message, ADO (R3.2v1.1, Table 6.47), since R3.0. Any word is kept.</summary>
/// <param name="Raw">The word.</param>
public readonly record struct AlertObject(uint Raw)
{
    /// <summary>Bit 31; the extended type is in bits 3 to 0.</summary>
    public static readonly BitField ExtendedAlertField = BitField.Flag("Extended Alert", 31);

    /// <summary>Bit 30.</summary>
    public static readonly BitField OvpField = BitField.Flag("OVP Event", 30);

    /// <summary>Bit 29.</summary>
    public static readonly BitField SourceInputChangeField = BitField.Flag("Source Input Change", 29);

    /// <summary>Bit 28.</summary>
    public static readonly BitField OperatingConditionField = BitField.Flag("Operating Condition Change", 28);

    /// <summary>Bit 27.</summary>
    public static readonly BitField OtpField = BitField.Flag("OTP Event", 27);

    /// <summary>Bit 26.</summary>
    public static readonly BitField OcpField = BitField.Flag("OCP Event", 26);

    /// <summary>Bit 25.</summary>
    public static readonly BitField BatteryStatusChangeField = BitField.Flag("Battery Status Change", 25);

    private static readonly BitField FixedBatteriesField = new BitField("Fixed Batteries", 23, 20).Means(raw => Batteries(raw, 0));
    
    private static readonly BitField HotSwappableField =
        new BitField("Hot Swappable Batteries", 19, 16).Means(raw => Batteries(raw, 4));

    private static readonly BitField ExtendedTypeField = new BitField("Extended Alert Event Type", 3, 0)
        .Codes((0, "none"), (1, "power state change"), (2, "power button press"), (3, "power button release"),
            (4, "wake by the controller"));

    /// <summary>All 32 bits.</summary>
    public static BitLayout Layout { get; } = new(
        "Alert Data Object", 32, "R3.2v1.1 Table 6.47",
        ExtendedAlertField, OvpField, SourceInputChangeField, OperatingConditionField, OtpField, OcpField,
        BatteryStatusChangeField, BitField.Reserved(24, 24), FixedBatteriesField, HotSwappableField,
        BitField.Reserved(15, 4), ExtendedTypeField);

    /// <summary>The flags of bits 30 to 25: what happened at the source.</summary>
    public static ImmutableArray<BitField> Events { get; } =
        [OvpField, SourceInputChangeField, OperatingConditionField, OtpField, OcpField, BatteryStatusChangeField];

    /// <summary>There is an extended type.</summary>
    public bool ExtendedAlert => ExtendedAlertField.IsSet(Raw);

    /// <summary>Over-voltage protection acted.</summary>
    public bool Ovp => OvpField.IsSet(Raw);

    /// <summary>The source's own input changed.</summary>
    public bool SourceInputChange => SourceInputChangeField.IsSet(Raw);

    /// <summary>Operating conditions changed: constant current or voltage, temperature, power.</summary>
    public bool OperatingConditionChange => OperatingConditionField.IsSet(Raw);

    /// <summary>Over-temperature protection acted.</summary>
    public bool Otp => OtpField.IsSet(Raw);

    /// <summary>Over-current protection acted.</summary>
    public bool Ocp => OcpField.IsSet(Raw);

    /// <summary>A battery was attached, removed, or changed its state.</summary>
    public bool BatteryStatusChange => BatteryStatusChangeField.IsSet(Raw);

    /// <summary>Which fixed batteries changed: bit 0 to bit 3 for battery 0 to 3.</summary>
    public int FixedBatteries => (int)FixedBatteriesField.Get(Raw);

    /// <summary>Which hot-swappable batteries changed: bit 0 to bit 3 for battery 4 to 7.</summary>
    public int HotSwappableBatteries => (int)HotSwappableField.Get(Raw);

    /// <summary>1 power state change, 2 power button press, 3 its release, 4 wake by the controller; others reserved.</summary>
    public int ExtendedTypeCode => (int)ExtendedTypeField.Get(Raw);

    /// <summary>An alert without flags.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A value does not fit its field.</exception>
    public static AlertObject Create(int fixedBatteries = 0, int hotSwappableBatteries = 0, int extendedTypeCode = 0)
    {
        uint word = HotSwappableField.SetScaled(FixedBatteriesField.SetScaled(0, fixedBatteries), hotSwappableBatteries);
        return new AlertObject(ExtendedTypeField.SetScaled(word, extendedTypeCode));
    }

    /// <summary>The same object with one of its flags set or cleared.</summary>
    /// <exception cref="ArgumentException">The field is not a single bit.</exception>
    public AlertObject With(BitField flag, bool value) => new(flag.SetFlag(Raw, value));

    private static string Batteries(uint bits, int first)
    {
        IEnumerable<int> set = Enumerable.Range(0, 4).Where(bit => (bits & (1u << bit)) != 0).Select(bit => bit + first);
        return bits == 0 ? "none" : $"battery {string.Join(", ", set)}";
    }
}
