using Portwitness.PowerDelivery.Layout;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.PowerDelivery.Requests;

/// <summary>Request of a fixed or variable supply (R3.2v1.1, Table 6.23).</summary>
/// <param name="Raw">The word.</param>
public readonly record struct FixedVariableRequest(uint Raw)
{
    /// <summary>Bits 19 to 10, steps of 10 mA.</summary>
    public static readonly BitField OperatingField = new("Operating Current", 19, 10, FieldUnit.Milliamperes, 10);

    /// <summary>Bits 9 to 0, steps of 10 mA.</summary>
    public static readonly BitField MaximumField = new("Maximum Operating Current", 9, 0, FieldUnit.Milliamperes, 10);

    /// <summary>All 32 bits, R3.1 and later.</summary>
    public static BitLayout Layout { get; } = RequestLayouts.Since31(
        "Fixed and Variable RDO", "R3.2v1.1 Table 6.23", RequestObject.GiveBackField, BitField.Reserved(21, 20),
        OperatingField, MaximumField);

    /// <summary>All 32 bits in R2.0 and R3.0, GiveBack clear.</summary>
    public static BitLayout LayoutBeforeR31 { get; } = RequestLayouts.Before31(
        "Fixed and Variable RDO, before R3.1", RequestObject.GiveBackField, BitField.Reserved(22, 20),
        OperatingField, MaximumField);

    /// <summary>All 32 bits in R2.0 and R3.0, GiveBack set.</summary>
    public static BitLayout GiveBackLayout { get; } = RequestLayouts.Before31(
        "Fixed and Variable RDO with GiveBack", RequestObject.GiveBackField, BitField.Reserved(22, 20),
        OperatingField, MaximumField with { Name = "Minimum Operating Current" });

    /// <summary>Position and flags.</summary>
    public RequestObject Request => new(Raw);

    /// <summary>0 to 10.23 A.</summary>
    public Current OperatingCurrent => Current.FromMilliamperes(OperatingField.GetScaled(Raw));

    /// <summary>0 to 10.23 A; null when GiveBack makes the field a minimum. To be ignored since R3.2 (6.4.2.9).</summary>
    public Current? MaximumOperatingCurrent => Request.GiveBack ? null : LowCurrent;

    /// <summary>0 to 10.23 A, what the sink can be told to go down to; null without GiveBack (R2.0, R3.0).</summary>
    public Current? MinimumOperatingCurrent => Request.GiveBack ? LowCurrent : null;

    private Current LowCurrent => Current.FromMilliamperes(MaximumField.GetScaled(Raw));

    /// <summary>A request without flags.</summary>
    /// <param name="objectPosition">0 to 15.</param>
    /// <param name="operating">Up to 10.23 A in steps of 10 mA.</param>
    /// <param name="low">The low field: maximum operating current, or the minimum once GiveBack is set.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value does not fit, or is no whole number of steps.</exception>
    public static FixedVariableRequest Create(int objectPosition, Current operating, Current low)
    {
        uint word = RequestObject.ObjectPositionField.SetScaled(0, objectPosition);
        word = OperatingField.SetScaled(word, operating.Milliamperes);
        return new FixedVariableRequest(MaximumField.SetScaled(word, low.Milliamperes));
    }
}
