using Portwitness.PowerDelivery.Units;

namespace Portwitness.Product.Parts;

/// <summary>
/// The ripple current of a converter's capacitors in continuous conduction, buck below the pack's voltage and boost above it, in mA rms (makers'
/// application notes, second-hand; reckoned again). Without inductance and frequency the coil's own ripple is left out, which is less.
/// </summary>
public static class CapacitorCurrent
{
    private const double Million = 1_000_000;

    /// <summary>In the capacitors at the port: √(D I_o² + (1 − D)((I_L − I_o)² + ΔI²/12)) above the pack's voltage, ΔI/√12 below it.</summary>
    /// <param name="output">Voltage and current of the port.</param>
    /// <param name="packMillivolts">Of the pack meanwhile.</param>
    /// <param name="efficiencyPpm">What of the input reaches the port, in millionths.</param>
    /// <param name="coil">The converter's coil; null when nothing is stated of it.</param>
    public static int AtPort((Voltage Voltage, Current Current) output, int packMillivolts, int efficiencyPpm, ProductPart? coil)
    {
        (double input, double given, double current) = (packMillivolts, output.Voltage.Millivolts, output.Current.Milliamperes);
        if (given <= input)
        {
            return Whole(Squared(Ripple(input - given, given / input, coil)) / 12);
        }

        double duty = Math.Clamp(1 - (input * (efficiencyPpm / Million) / given), 0, 0.999);
        double coilCurrent = current / (1 - duty);
        return Whole((duty * Squared(current)) + ((1 - duty) * (Squared(coilCurrent - current) + (Squared(Ripple(input, duty, coil)) / 12))));
    }

    /// <summary>In the capacitors at the pack: √(D (I_o² (1 − D) + ΔI²/12)) below the pack's voltage, ΔI/√12 above it.</summary>
    /// <inheritdoc cref="AtPort"/>
    public static int AtPack((Voltage Voltage, Current Current) output, int packMillivolts, int efficiencyPpm, ProductPart? coil)
    {
        (double input, double given, double current) = (packMillivolts, output.Voltage.Millivolts, output.Current.Milliamperes);
        double efficiency = efficiencyPpm / Million;
        if (given > input)
        {
            return Whole(Squared(Ripple(input, Math.Clamp(1 - (input * efficiency / given), 0, 1), coil)) / 12);
        }

        double duty = Math.Min(1, given / (input * efficiency));
        return Whole(duty * ((Squared(current) * (1 - duty)) + (Squared(Ripple(input - given, given / input, coil)) / 12)));
    }

    // mV / (Hz nH) is 10⁶ A, so 10⁹ mA.
    private static double Ripple(double millivolts, double duty, ProductPart? coil) =>
        coil is { Nanohenries: { } nanohenries, Hertz: { } hertz } ? millivolts * duty * 1_000_000_000 / hertz / nanohenries : 0;

    private static double Squared(double value) => value * value;

    private static int Whole(double square) => (int)Math.Min(int.MaxValue, Math.Round(Math.Sqrt(square)));
}
