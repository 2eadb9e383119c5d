using Portwitness.PowerDelivery.Layout;
using Portwitness.PowerDelivery.PowerData;

namespace Portwitness.PowerDelivery.Requests;

/// <summary>
/// A Request Data Object (R3.2v1.1, 6.4.2): the bits that all requests share. Any word is accepted and kept.
/// </summary>
/// <remarks>
/// The word does not say its own shape; the Power Data Object at <see cref="ObjectPosition"/> decides. Read it with
/// <see cref="ShapeFor"/>, <see cref="LayoutFor"/> or <see cref="RequestTerms"/>.
/// </remarks>
/// <param name="Raw">The word; bytes on the wire are little-endian.</param>
public readonly record struct RequestObject(uint Raw)
{
    /// <summary>Bits 31 to 28, since R3.1.</summary>
    public static readonly BitField ObjectPositionField = new("Object Position", 31, 28);

    /// <summary>Bits 30 to 28: the whole of the field in R2.0 and R3.0, where bit 31 is reserved.</summary>
    public static readonly BitField ObjectPositionBeforeR31Field = new("Object Position", 30, 28);

    /// <summary>Bit 27 of fixed, variable and battery requests; deprecated, reserved in PPS and AVS requests.</summary>
    public static readonly BitField GiveBackField = BitField.Flag("GiveBack", 27);

    /// <summary>Bit 26.</summary>
    public static readonly BitField CapabilityMismatchField = BitField.Flag("Capability Mismatch", 26);

    /// <summary>Bit 25.</summary>
    public static readonly BitField UsbCommunicationsCapableField = BitField.Flag("USB Communications Capable", 25);

    /// <summary>Bit 24.</summary>
    public static readonly BitField NoUsbSuspendField = BitField.Flag("No USB Suspend", 24);

    /// <summary>Bit 23, since R3.0.</summary>
    public static readonly BitField UnchunkedField = BitField.Flag("Unchunked Extended Messages Supported", 23);

    /// <summary>Bit 22, since R3.1.</summary>
    public static readonly BitField EprCapableField = BitField.Flag("EPR Capable", 22);

    /// <summary>All 32 bits while the selected object is not known.</summary>
    public static BitLayout UnknownLayout { get; } = RequestLayouts.Since31(
        "Request of an unknown object", "R3.2v1.1 6.4.2", GiveBackField, new BitField("Unknown", 21, 0));

    /// <summary>The same for R2.0 and R3.0.</summary>
    public static BitLayout UnknownLayoutBeforeR31 { get; } = RequestLayouts.Before31(
        "Request of an unknown object, before R3.1", GiveBackField, BitField.Reserved(22, 22),
        new BitField("Unknown", 21, 0));

    /// <summary>Which object of the last capabilities is asked for, 1 to 13; 0, 14 and 15 are invalid. R3.1 and later.</summary>
    public int ObjectPosition => (int)ObjectPositionField.Get(Raw);

    /// <summary>The same as R2.0 and R3.0 read it: 1 to 7, bit 31 left out. Equal as long as bit 31 is clear.</summary>
    public int ObjectPositionBeforeR31 => (int)ObjectPositionBeforeR31Field.Get(Raw);

    /// <summary>Fixed, variable and battery requests of R2.0 and R3.0: the low field is a minimum.</summary>
    public bool GiveBack => GiveBackField.IsSet(Raw);

    /// <summary>The sink would like more than any offered object gives; not an error.</summary>
    public bool CapabilityMismatch => CapabilityMismatchField.IsSet(Raw);

    /// <summary>The sink can carry USB data.</summary>
    public bool UsbCommunicationsCapable => UsbCommunicationsCapableField.IsSet(Raw);

    /// <summary>The sink asks not to be bound by USB suspend.</summary>
    public bool NoUsbSuspend => NoUsbSuspendField.IsSet(Raw);

    /// <summary>Extended messages may be sent whole.</summary>
    public bool UnchunkedExtendedMessagesSupported => UnchunkedField.IsSet(Raw);

    /// <summary>The sink can enter EPR mode.</summary>
    public bool EprCapable => EprCapableField.IsSet(Raw);

    /// <summary>The shape of a request that selects an object of a kind.</summary>
    public static RequestShape ShapeFor(PowerObjectKind selected) => selected switch
    {
        PowerObjectKind.Fixed or PowerObjectKind.Variable => RequestShape.FixedVariable,
        PowerObjectKind.Battery => RequestShape.Battery,
        PowerObjectKind.Pps => RequestShape.Pps,
        PowerObjectKind.EprAvs or PowerObjectKind.SprAvs => RequestShape.Avs,
        _ => RequestShape.Unknown,
    };

    /// <summary>The layout of a request, R3.1 and later, that selects an object of a kind.</summary>
    public static BitLayout LayoutFor(PowerObjectKind selected) => ShapeFor(selected) switch
    {
        RequestShape.FixedVariable => FixedVariableRequest.Layout,
        RequestShape.Battery => BatteryRequest.Layout,
        RequestShape.Pps => PpsRequest.Layout,
        RequestShape.Avs => AvsRequest.Layout,
        _ => UnknownLayout,
    };

    /// <summary>
    /// The layout of this request in R2.0 and R3.0; <see cref="GiveBack"/> chooses the meaning of the low field.
    /// Those editions have no AVS.
    /// </summary>
    public BitLayout LayoutBeforeR31For(PowerObjectKind selected) => ShapeFor(selected) switch
    {
        RequestShape.FixedVariable => GiveBack ? FixedVariableRequest.GiveBackLayout : FixedVariableRequest.LayoutBeforeR31,
        RequestShape.Battery => GiveBack ? BatteryRequest.GiveBackLayout : BatteryRequest.LayoutBeforeR31,
        RequestShape.Pps => PpsRequest.LayoutBeforeR31,
        _ => UnknownLayoutBeforeR31,
    };

    /// <summary>The word read as a request of a fixed or variable supply, whatever it selects.</summary>
    public FixedVariableRequest AsFixedVariable() => new(Raw);

    /// <summary>The word read as a request of a battery supply.</summary>
    public BatteryRequest AsBattery() => new(Raw);

    /// <summary>The word read as a request of a programmable supply.</summary>
    public PpsRequest AsPps() => new(Raw);

    /// <summary>The word read as a request of an adjustable voltage supply, SPR or EPR.</summary>
    public AvsRequest AsAvs() => new(Raw);

    /// <summary>The same request with one of its flags set or cleared.</summary>
    /// <exception cref="ArgumentException">The field is not a single bit.</exception>
    public RequestObject With(BitField flag, bool value) => new(flag.SetFlag(Raw, value));
}
