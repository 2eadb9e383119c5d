using Portwitness.PowerDelivery.Units;

namespace Portwitness.PowerDelivery.Limits;

/// <summary>Electrical figures that capabilities and cables are held against. Nominal unless they say otherwise.</summary>
public static class Electrical
{
    /// <summary>Nominal voltage of the first object of every list (R3.2v1.1, 6.4.1.4).</summary>
    public static readonly Voltage Safe5V = Voltage.FromMillivolts(5_000);

    /// <summary>vSafe5V minimum (R3.2v1.1, Tables 7.23 and 7.25).</summary>
    public static readonly Voltage Safe5VMinimum = Voltage.FromMillivolts(4_750);

    /// <summary>vSafe5V maximum (R3.2v1.1, Tables 7.23 and 7.25).</summary>
    public static readonly Voltage Safe5VMaximum = Voltage.FromMillivolts(5_500);

    /// <summary>vSafe0V maximum (R3.2v1.1, Tables 7.23 and 7.25).</summary>
    public static readonly Voltage Safe0VMaximum = Voltage.FromMillivolts(800);

    /// <summary>The fixed voltages of SPR, ascending (R3.2v1.1, Table 10.2; the same since R2.0v1.2).</summary>
    public static IReadOnlyList<Voltage> SprFixedVoltages { get; } = Volts(5, 9, 15, 20);

    /// <summary>The largest fixed voltage of SPR (R3.2v1.1, Table 10.2).</summary>
    public static readonly Voltage SprMaximumFixed = Voltage.FromMillivolts(20_000);

    /// <summary>The fixed voltages of EPR, ascending (R3.2v1.1, Table 10.12), since R3.1.</summary>
    public static IReadOnlyList<Voltage> EprFixedVoltages { get; } = Volts(28, 36, 48);

    /// <summary>The largest voltage of an optional SPR object (R3.2v1.1, 10.2.3.1); older editions are not confirmed.</summary>
    public static readonly Voltage SprMaximumOptional = Voltage.FromMillivolts(9_000);

    /// <summary>The largest PDP of SPR; EPR begins above it (R3.2v1.1, 10.2.3.3).</summary>
    public static readonly Power SprMaximumPdp = Power.FromMilliwatts(100_000);

    /// <summary>The largest PDP of EPR (R3.2v1.1, 10.2.3.3), since R3.1.</summary>
    public static readonly Power EprMaximumPdp = Power.FromMilliwatts(240_000);

    /// <summary>The largest current of the connector and of any cable (R3.2v1.1, 10.2.3.3).</summary>
    public static readonly Current ConnectorMaximum = Current.FromMilliamperes(5_000);

    /// <summary>What a cable carries that does not say more (R3.2v1.1, 4.4).</summary>
    public static readonly Current UnmarkedCableMaximum = Current.FromMilliamperes(3_000);

    /// <summary>What a cable is good for that does not say more, nominal (R3.2v1.1, 4.4).</summary>
    public static readonly Voltage UnmarkedCableMaximumVoltage = Voltage.FromMillivolts(20_000);

    /// <summary>What an EPR cable says it is good for (R3.2v1.1, Table 6.41), since R3.1.</summary>
    public static readonly Voltage EprCableMaximumVoltage = Voltage.FromMillivolts(50_000);

    /// <summary>iPpsCLMin: a PPS source limits at no less (R3.2v1.1, 7.1.4.2.2).</summary>
    public static readonly Current PpsCurrentLimitMinimum = Current.FromMilliamperes(1_000);

    private static Voltage[] Volts(params ReadOnlySpan<int> volts)
    {
        Voltage[] result = new Voltage[volts.Length];
        for (int i = 0; i < volts.Length; i++)
        {
            result[i] = Voltage.FromMillivolts(volts[i] * 1000);
        }

        return result;
    }
}
