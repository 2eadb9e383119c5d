using Portwitness.PowerDelivery.Layout;

namespace Portwitness.PowerDelivery.ExtendedBlocks;

/// <summary>Status of a cable plug, on SOP' and SOP'', 2 bytes (R3.2v1.1, Table 6.56).</summary>
/// <param name="Block">The bytes.</param>
public sealed record CablePlugStatusBlock(DataBlock Block)
{
    internal static readonly BlockField TemperatureField =
        BlockField.Bytes("Internal Temp", 0, 1, FieldUnit.DegreesCelsius).Codes((0, "not supported"), (1, "below 2 °C"));

    private static readonly BlockField ThermalShutdownField = BlockField.Flag("Thermal shutdown", 1, 0);

    /// <summary>All bytes.</summary>
    public static BlockLayout Layout { get; } = new(
        "Status Data Block, cable plug", "R3.2v1.1 Table 6.56", BlockTail.None,
        TemperatureField, BlockField.Reserved(1, 7, 1), ThermalShutdownField);

    /// <summary>Degrees Celsius: 0 not supported, 1 below 2.</summary>
    public int? InternalTemperature => Block.GetScaled(TemperatureField);

    /// <summary>The plug has shut down because of heat.</summary>
    public bool? ThermalShutdown => Block.GetFlag(ThermalShutdownField);

    /// <summary>Bytes beyond those of R3.2v1.1.</summary>
    public DataBlock Remainder => Block.From(Layout.Size);
}
