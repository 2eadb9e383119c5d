using Portwitness.PowerDelivery.Units;

namespace Portwitness.Product.Parts;

/// <summary>
/// The current of a converter's coil in continuous conduction: buck below the pack's voltage, boost above it (makers' application notes; second-hand
/// where only one of them was read).
/// </summary>
public static class CoilCurrent
{
    private const decimal Million = 1_000_000;

    /// <summary>Its peak in mA: the mean and half of the ripple, where inductance and frequency are stated.</summary>
    /// <param name="output">Voltage and current of the port.</param>
    /// <param name="packMillivolts">Of the pack meanwhile.</param>
    /// <param name="efficiencyPpm">What of the input reaches the port, in millionths.</param>
    /// <param name="coil">The coil.</param>
    public static int Peak((Voltage Voltage, Current Current) output, int packMillivolts, int efficiencyPpm, ProductPart coil)
    {
        (decimal input, decimal given) = (packMillivolts, output.Voltage.Millivolts);
        decimal efficiency = efficiencyPpm / Million;
        decimal mean = given > input ? output.Current.Milliamperes * given / (input * efficiency) : output.Current.Milliamperes;
        decimal ripple = 0;
        if (coil is { Nanohenries: { } nanohenries, Hertz: { } hertz })
        {
            // (V_i - V_o) D / (f L) below, V_i D / (f L) above; mV / (Hz nH) is 10⁶ A, so 10⁹ mA.
            decimal duty = given > input ? Math.Max(0, 1 - (input * efficiency / given)) : given / input;
            ripple = (given > input ? input : input - given) * duty * 1_000_000_000 / hertz / nanohenries;
        }

        return (int)Math.Min(int.MaxValue, Math.Round(mean + (ripple / 2)));
    }
}
