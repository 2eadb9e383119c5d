namespace Portwitness.PowerDelivery.Explanations;

/// <summary>One line of an explanation: one field of a message.</summary>
/// <param name="Range">Where it is, for example "object 1 bits 19..10", "bytes 0..1" or "header bit 15".</param>
/// <param name="Name">The standard's name.</param>
/// <param name="Raw">The bits: hexadecimal; binary with "?" where some were not shown; "?" where none were.</param>
/// <param name="Meaning">In words with unit, for example "20 V (400 x 50 mV)"; "not shown" when a bit was not.</param>
/// <param name="IsReserved">Whether the standard reserves the bits.</param>
/// <param name="IsKnown">Whether all bits were shown.</param>
/// <param name="Clause">Edition and table.</param>
public sealed record ExplainedField(
    string Range, string Name, string Raw, string Meaning, bool IsReserved, bool IsKnown, string Clause)
{
    /// <summary>Whether it belongs to a header, and not to what the message holds.</summary>
    public bool IsOfHeader { get; init; }
}
