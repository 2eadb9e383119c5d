using Portwitness.PowerDelivery.Units;

namespace Portwitness.Product.Parts;

/// <summary>What MOSFETs that conduct turn into heat.</summary>
public static class SwitchLoss
{
    // Of the resistance at 25 °C: 1.2 at 80 °C, 1.4 at 110 °C, 1.5 at 125 °C (makers' application notes).
    private const int HotTenths = 14;

    /// <summary>Of each one, (I/n)² R x 1.4, in mW.</summary>
    /// <param name="current">Through all of them.</param>
    /// <param name="microohms">Of one at 25 °C.</param>
    /// <param name="parallel">How many share it.</param>
    public static long HotMilliwatts(Current current, int microohms, int parallel) =>
        // mA² times µΩ is 10⁻¹² W.
        (long)((Int128)current.Milliamperes * current.Milliamperes * microohms * HotTenths / parallel / parallel / 10_000_000_000);
}
