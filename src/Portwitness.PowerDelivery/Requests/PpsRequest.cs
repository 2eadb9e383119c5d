using Portwitness.PowerDelivery.Layout;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.PowerDelivery.Requests;

/// <summary>Request of a programmable supply (R3.2v1.1, Table 6.25), since R3.0.</summary>
/// <remarks>R3.0 gives the voltage eleven bits, R3.2 twelve; a voltage up to 40.94 V reads the same in both.</remarks>
/// <param name="Raw">The word.</param>
public readonly record struct PpsRequest(uint Raw)
{
    /// <summary>Bits 6 to 0, steps of 50 mA.</summary>
    public static readonly BitField CurrentField = new("Operating Current", 6, 0, FieldUnit.Milliamperes, 50);

    /// <summary>Bits 20 to 9, steps of 20 mV.</summary>
    public static readonly BitField VoltageField = new("Output Voltage", 20, 9, FieldUnit.Millivolts, 20);

    /// <summary>All 32 bits, R3.1 and later.</summary>
    public static BitLayout Layout { get; } = RequestLayouts.Since31(
        "PPS RDO", "R3.2v1.1 Table 6.25", BitField.Reserved(27, 27), BitField.Reserved(21, 21),
        VoltageField, BitField.Reserved(8, 7), CurrentField);

    /// <summary>All 32 bits in R3.0.</summary>
    public static BitLayout LayoutBeforeR31 { get; } = RequestLayouts.Before31(
        "PPS RDO, before R3.1", BitField.Reserved(27, 27), BitField.Reserved(22, 20),
        VoltageField with { High = 19 }, BitField.Reserved(8, 7), CurrentField);

    /// <summary>Position and flags.</summary>
    public RequestObject Request => new(Raw);

    /// <summary>0 to 81.9 V.</summary>
    public Voltage OutputVoltage => Voltage.FromMillivolts(VoltageField.GetScaled(Raw));

    /// <summary>0 to 6.35 A.</summary>
    public Current OperatingCurrent => Current.FromMilliamperes(CurrentField.GetScaled(Raw));

    /// <summary>A request without flags.</summary>
    /// <param name="objectPosition">0 to 15.</param>
    /// <param name="output">Up to 81.9 V in steps of 20 mV.</param>
    /// <param name="operating">Up to 6.35 A in steps of 50 mA.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value does not fit, or is no whole number of steps.</exception>
    public static PpsRequest Create(int objectPosition, Voltage output, Current operating)
    {
        uint word = RequestObject.ObjectPositionField.SetScaled(0, objectPosition);
        word = VoltageField.SetScaled(word, output.Millivolts);
        return new PpsRequest(CurrentField.SetScaled(word, operating.Milliamperes));
    }
}
