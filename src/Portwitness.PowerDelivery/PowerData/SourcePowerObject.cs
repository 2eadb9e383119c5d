using Portwitness.PowerDelivery.Layout;

namespace Portwitness.PowerDelivery.PowerData;

/// <summary>
/// One Power Data Object of a source, of any kind (R3.2v1.1, 6.4.1.2). Any word is accepted and kept.
/// </summary>
/// <param name="Raw">The word; bytes on the wire are little-endian.</param>
public readonly record struct SourcePowerObject(uint Raw)
{
    /// <summary>All bits of an object of the reserved kind.</summary>
    public static BitLayout ReservedLayout { get; } = new(
        "Reserved Power Data Object", 32, "R3.2v1.1 Table 6.8",
        PowerObjectKinds.TypeField, PowerObjectKinds.SubtypeField, new BitField("Unknown", 27, 0));

    /// <summary>What the type bits say.</summary>
    public PowerObjectKind Kind => PowerObjectKinds.Of(Raw);

    /// <summary>The layout that the type bits select.</summary>
    public BitLayout Layout => Kind switch
    {
        PowerObjectKind.Fixed => FixedSourceSupply.Layout,
        PowerObjectKind.Battery => BatterySourceSupply.Layout,
        PowerObjectKind.Variable => VariableSourceSupply.Layout,
        PowerObjectKind.Pps => PpsSourceSupply.Layout,
        PowerObjectKind.EprAvs => EprAvsSourceSupply.Layout,
        PowerObjectKind.SprAvs => SprAvsSourceSupply.Layout,
        _ => ReservedLayout,
    };

    /// <summary>The word read as a fixed supply, whatever <see cref="Kind"/> says.</summary>
    public FixedSourceSupply AsFixed() => new(Raw);

    /// <summary>The word read as a battery supply.</summary>
    public BatterySourceSupply AsBattery() => new(Raw);

    /// <summary>The word read as a variable supply.</summary>
    public VariableSourceSupply AsVariable() => new(Raw);

    /// <summary>The word read as a programmable supply.</summary>
    public PpsSourceSupply AsPps() => new(Raw);

    /// <summary>The word read as an SPR adjustable voltage supply.</summary>
    public SprAvsSourceSupply AsSprAvs() => new(Raw);

    /// <summary>The word read as an EPR adjustable voltage supply.</summary>
    public EprAvsSourceSupply AsEprAvs() => new(Raw);
}
