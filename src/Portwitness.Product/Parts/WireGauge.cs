namespace Portwitness.Product.Parts;

/// <summary>American wire gauges: d = 0.127 mm x 92^((36 - n) / 39) (ASTM B258, second-hand), copper of 17.241 mΩ mm²/m at 20 °C.</summary>
public static class WireGauge
{
    private const double MicroohmSquareMillimetresPerMetre = 17_241;

    /// <summary>Resistance of two wires of a length, there and back, in µΩ; contacts are not counted.</summary>
    /// <param name="gauge">0 to 40.</param>
    /// <param name="millimetres">Length of the cable.</param>
    public static long MicroohmsThereAndBack(int gauge, int millimetres)
    {
        double diameter = 0.127 * Math.Pow(92, (36 - gauge) / 39.0);
        double perMetre = MicroohmSquareMillimetresPerMetre / (Math.PI * diameter * diameter / 4);
        return (long)Math.Round(perMetre * millimetres * 2 / 1000);
    }
}
