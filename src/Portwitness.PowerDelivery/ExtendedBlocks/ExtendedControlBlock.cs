using Portwitness.PowerDelivery.Layout;

namespace Portwitness.PowerDelivery.ExtendedBlocks;

/// <summary>What an Extended_Control message asks (R3.2v1.1, Tables 6.66 and 6.67). Other codes are reserved.</summary>
public enum ExtendedControlType
{
    /// <summary>A sink asks for the EPR source capabilities.</summary>
    EprGetSourceCap = 1,

    /// <summary>A source asks for the EPR sink capabilities.</summary>
    EprGetSinkCap = 2,

    /// <summary>A sink in EPR mode is there.</summary>
    EprKeepAlive = 3,

    /// <summary>The source has noticed.</summary>
    EprKeepAliveAck = 4,
}

/// <summary>Extended_Control, ECDB, 2 bytes (R3.2v1.1, Table 6.66), since R3.1.</summary>
/// <param name="Block">The bytes.</param>
public sealed record ExtendedControlBlock(DataBlock Block)
{
    private static readonly BlockField TypeField = BlockField.Bytes("Type", 0, 1).Codes(
        (1, "EPR_Get_Source_Cap"), (2, "EPR_Get_Sink_Cap"), (3, "EPR_KeepAlive"), (4, "EPR_KeepAlive_Ack"));

    private static readonly BlockField DataField = BlockField.Bytes("Data", 1, 1);

    /// <summary>All bytes.</summary>
    public static BlockLayout Layout { get; } = new(
        "Extended Control Data Block", "R3.2v1.1 Table 6.66", BlockTail.None, TypeField, DataField);

    /// <summary>What is asked; a reserved code is its number.</summary>
    public ExtendedControlType? Type => (ExtendedControlType?)Block.GetScaled(TypeField);

    /// <summary>The standard's name, "reserved (5)" for others; null when it is missing or was not shown.</summary>
    public string? TypeName => Block.Get(TypeField) is { } raw ? TypeField.Bits.Describe(raw) : null;

    /// <summary>0 where no type uses it.</summary>
    public int? Data => Block.GetScaled(DataField);

    /// <summary>Bytes beyond those of R3.2v1.1.</summary>
    public DataBlock Remainder => Block.From(Layout.Size);

    /// <summary>Builds the block.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The type is not 0 to 255.</exception>
    public static ExtendedControlBlock Create(ExtendedControlType type, byte data = 0) =>
        new(DataBlock.Blank(Layout.Size).WithScaled(TypeField, (int)type).With(DataField, data));
}
