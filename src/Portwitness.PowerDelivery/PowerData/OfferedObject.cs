using Portwitness.PowerDelivery.Layout;

namespace Portwitness.PowerDelivery.PowerData;

/// <summary>One Power Data Object of a list as it was received, with the bits that the instrument showed.</summary>
/// <param name="Position">Counted from 1.</param>
/// <param name="Raw">The word; bits that are not known are 0.</param>
/// <param name="Known">One bit for each bit of <paramref name="Raw"/> that was shown.</param>
public readonly record struct OfferedObject(int Position, uint Raw, uint Known)
{
    /// <summary>The word as an object of a source.</summary>
    public SourcePowerObject AsSource() => new(Raw);

    /// <summary>What the type bits say, when they are known.</summary>
    public PowerObjectKind Kind => PowerObjectKinds.Of(Raw);

    /// <summary>Whether the bits that select the kind were shown, the subtype of an augmented object included.</summary>
    public bool KindIsKnown => PowerObjectKinds.IsShown(Raw, Known);

    /// <summary>Whether all bits of a field were shown.</summary>
    public bool Knows(BitField field) => (Known & field.Mask) == field.Mask;

    /// <summary>Whether the kind is known, and is this one.</summary>
    public bool Is(PowerObjectKind kind) => Kind == kind && KindIsKnown;

    /// <summary>Zero-filled: padding in an EPR list (R3.2v1.1, 6.5.15.1).</summary>
    public bool IsZero => Raw == 0 && Known == uint.MaxValue;
}
