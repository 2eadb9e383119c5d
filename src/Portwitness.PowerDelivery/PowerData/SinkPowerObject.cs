using Portwitness.PowerDelivery.Layout;

namespace Portwitness.PowerDelivery.PowerData;

/// <summary>
/// One Power Data Object of a sink, of any kind (R3.2v1.1, 6.4.1.3). Any word is accepted and kept.
/// </summary>
/// <param name="Raw">The word; bytes on the wire are little-endian.</param>
public readonly record struct SinkPowerObject(uint Raw)
{
    /// <summary>What the type bits say.</summary>
    public PowerObjectKind Kind => PowerObjectKinds.Of(Raw);

    /// <summary>The layout that the type bits select.</summary>
    public BitLayout Layout => Kind switch
    {
        PowerObjectKind.Fixed => FixedSinkSupply.Layout,
        PowerObjectKind.Battery => BatterySinkSupply.Layout,
        PowerObjectKind.Variable => VariableSinkSupply.Layout,
        PowerObjectKind.Pps => PpsSinkSupply.Layout,
        PowerObjectKind.EprAvs => EprAvsSinkSupply.Layout,
        PowerObjectKind.SprAvs => SprAvsSinkSupply.Layout,
        _ => SourcePowerObject.ReservedLayout,
    };

    /// <summary>The word read as a fixed supply, whatever <see cref="Kind"/> says.</summary>
    public FixedSinkSupply AsFixed() => new(Raw);

    /// <summary>The word read as a battery supply.</summary>
    public BatterySinkSupply AsBattery() => new(Raw);

    /// <summary>The word read as a variable supply.</summary>
    public VariableSinkSupply AsVariable() => new(Raw);

    /// <summary>The word read as a programmable supply.</summary>
    public PpsSinkSupply AsPps() => new(Raw);

    /// <summary>The word read as an SPR adjustable voltage supply.</summary>
    public SprAvsSinkSupply AsSprAvs() => new(Raw);

    /// <summary>The word read as an EPR adjustable voltage supply.</summary>
    public EprAvsSinkSupply AsEprAvs() => new(Raw);
}
