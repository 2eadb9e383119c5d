using Portwitness.PowerDelivery.Units;

namespace Portwitness.Product.Parts;

/// <summary>One part on the VBUS side, as "parts:" of a product file names it.</summary>
/// <param name="Name">Its name on the board.</param>
/// <param name="Node">The port whose VBUS it is on.</param>
/// <param name="Volts">Rated voltage; null when not stated.</param>
/// <param name="Amperes">Rated current; null when not stated.</param>
/// <param name="HeadroomPpm">Share of the rating that is to stay free, in millionths.</param>
/// <param name="Line">Line of the product file.</param>
/// <param name="Column">Its column.</param>
public sealed record ProductPart(string Name, string Node, Voltage? Volts, Current? Amperes, int HeadroomPpm, int Line, int Column)
{
    /// <summary>Where nothing is stated: a fifth of the rating stays free (common practice, no source).</summary>
    public const int UsualHeadroomPpm = 200_000;
}
