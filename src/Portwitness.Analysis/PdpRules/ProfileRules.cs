using Portwitness.PowerDelivery.PowerData;

namespace Portwitness.Analysis.PdpRules;

/// <summary>
/// The profiles that were the law before the power rules of R2.0v1.2 (R1.0, as the press of 2012 reports them; R2.0v1.2 replaced
/// them). A message header cannot tell R2.0v1.2 from what came before it. Voltages in mV, currents in mA.
/// </summary>
public static class ProfileRules
{
    private const int FirstVoltage = 5_000;
    private const int MiddleVoltage = 12_000;
    private const int TopVoltage = 20_000;
    private const int CurrentAt5V = 2_000;

    // Profiles 2 to 5: the current at 12 V, and at 20 V (0 where the profile ends at 12 V). Profile 1 is 5 V alone.
    private static readonly (int At12V, int At20V)[] Profiles = [(1_500, 0), (3_000, 0), (3_000, 3_000), (5_000, 5_000)];

    /// <summary>Whether a list offers at least what one of the profiles 2 to 5 does, and no voltage above its last.</summary>
    public static bool Allow(ReadOnlySpan<OfferedObject> objects)
    {
        int at5V = 0, at12V = 0, at20V = 0, highest = 0;
        foreach (OfferedObject offered in objects)
        {
            if (!offered.Is(PowerObjectKind.Fixed) || offered.HighestVoltage() is not { } voltage
                || offered.MaximumCurrent() is not { } current)
            {
                continue;
            }

            highest = Math.Max(highest, voltage.Millivolts);
            switch (voltage.Millivolts)
            {
                case FirstVoltage: at5V = Math.Max(at5V, current.Milliamperes); break;
                case MiddleVoltage: at12V = Math.Max(at12V, current.Milliamperes); break;
                case TopVoltage: at20V = Math.Max(at20V, current.Milliamperes); break;
                default: break;
            }
        }

        foreach ((int least12V, int least20V) in Profiles)
        {
            bool reaches = highest <= (least20V > 0 ? TopVoltage : MiddleVoltage);
            if (reaches && at5V >= CurrentAt5V && at12V >= least12V && at20V >= least20V)
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>
    /// Whether a list shows that its source follows the power rules: no profile has 9 V or 15 V, and PPS and AVS came later.
    /// </summary>
    public static bool IsOfPowerRules(ReadOnlySpan<OfferedObject> objects)
    {
        foreach (OfferedObject offered in objects)
        {
            if (offered.KindIsKnown && (offered.Kind.IsAugmented()
                || (offered.Kind == PowerObjectKind.Fixed && offered.HighestVoltage()?.Millivolts is 9_000 or 15_000)))
            {
                return true;
            }
        }

        return false;
    }
}
