using Portwitness.PowerDelivery.Layout;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.PowerDelivery.VendorDefined;

/// <summary>
/// Cable VDO of R2.0, passive or active: what an answer of structured VDM version 1.0 carries. Layout as in the kernel
/// header for USB PD 2.0. It has no voltage and no EPR field.
/// </summary>
/// <param name="Raw">The word.</param>
public readonly record struct CableVdoR20(uint Raw)
{
    /// <summary>All 32 bits.</summary>
    public static BitLayout Layout { get; } = new(
        "Cable VDO, R2.0", 32, "R2.0 (kernel header)",
        CableFields.Hardware, CableFields.Firmware, BitField.Reserved(23, 20),
        (CableFields.Plug with { Name = "Type-C to Type-A/B/C/Captive" })
            .Codes((0, "Type-A"), (1, "Type-B"), (2, "Type-C"), (3, "captive")), BitField.Reserved(17, 17),
        CableFields.Latency, CableFields.Termination, BitField.Flag("SSTX1 Directionality Support", 10),
        BitField.Flag("SSTX2 Directionality Support", 9), BitField.Flag("SSRX1 Directionality Support", 8),
        BitField.Flag("SSRX2 Directionality Support", 7),
        CableFields.Current.Codes((0, "default USB power (from memory)"), (1, "3 A"), (2, "5 A")), CableFields.VbusThrough,
        CableFields.SopDoublePrime, (CableFields.Speed with { Name = "USB SuperSpeed Signaling Support" })
            .Codes((0, "USB 2.0 only"), (1, "USB 3.1 Gen 1"), (2, "USB 3.1 Gen 2")));

    /// <summary>0 Type-A, 1 Type-B, 2 Type-C, 3 captive.</summary>
    public int PlugCode => (int)CableFields.Plug.Get(Raw);

    /// <summary>0 default USB power (from memory), 1 3 A, 2 5 A; 3 is reserved.</summary>
    public int CurrentCode => (int)CableFields.Current.Get(Raw);

    /// <summary>3 A or 5 A; null for other codes.</summary>
    public Current? MaximumCurrent => CableFields.CurrentOf(Raw);

    /// <summary>VBUS goes from end to end.</summary>
    public bool VbusThroughCable => CableFields.VbusThrough.IsSet(Raw);

    /// <summary>There is a controller that answers on SOP''.</summary>
    public bool SopDoublePrimeController => CableFields.SopDoublePrime.IsSet(Raw);
}
