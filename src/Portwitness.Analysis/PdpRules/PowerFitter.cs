using Portwitness.Analysis.Profile;
using Portwitness.PowerDelivery.PowerData;

namespace Portwitness.Analysis.PdpRules;

/// <summary>
/// Finds the PDP that a list agrees with. A list of unknown PDP breaks a power rule only when no PDP at all, and no
/// reduced present PDP of a port that may be managed, would satisfy it.
/// </summary>
public static class PowerFitter
{
    private const string Derived = "derived from the list";

    /// <summary>Judges an SPR list of a source.</summary>
    public static PowerFit Fit(ReadOnlySpan<OfferedObject> objects, SourceEvidence evidence)
    {
        if (evidence.Pdp is { } pdp)
        {
            return Judge(objects, evidence, pdp.Milliwatts, evidence.PdpBasis);
        }

        int largest = LargestFixedPower(objects);
        if (largest == 0)
        {
            return default;
        }

        // The figure a manufacturer would print comes first.
        int floor = largest / Step(largest) * Step(largest);
        int above = floor + Step(largest);
        (int nearest, int other) = largest - floor < above - largest ? (floor, above) : (above, floor);
        if (Holds(objects, evidence, nearest))
        {
            return new PowerFit(nearest, Derived, false, null);
        }

        if (other > 0 && Holds(objects, evidence, other))
        {
            return new PowerFit(other, Derived, false, null);
        }

        return Search(objects, evidence, largest, nearest);
    }

    /// <summary>The largest V × I among the fixed objects, in mW; above 5 A counts as 5 A.</summary>
    public static int LargestFixedPower(ReadOnlySpan<OfferedObject> objects)
    {
        long largest = 0;
        foreach (OfferedObject offered in objects)
        {
            if (offered.Kind == PowerObjectKind.Fixed && !offered.IsZero)
            {
                FixedSourceSupply supply = offered.AsSource().AsFixed();
                largest = Math.Max(largest, (long)supply.Voltage.Millivolts * PowerRuleCheck.Offered(supply.MaximumCurrent));
            }
        }

        return (int)(largest / 1000);
    }

    private static bool Holds(ReadOnlySpan<OfferedObject> objects, SourceEvidence evidence, int pdp) =>
        PowerRuleCheck.Count(objects, evidence.Cable, pdp, pdp, null) == 0;

    // The PDPs that satisfy a list form intervals that begin just above a row of the table or just above the power at
    // which an object's current is the rounded-up one. Trying the beginnings finds one if there is one; if there is
    // none, the list is judged by the printable figure that it breaks least, the nearest to its largest power.
    private static PowerFit Search(ReadOnlySpan<OfferedObject> objects, SourceEvidence evidence, int largest, int nearest)
    {
        int best = nearest;
        int fewest = PowerRuleCheck.Count(objects, evidence.Cable, nearest, nearest, null);
        foreach (int pdp in Beginnings(objects))
        {
            if (Holds(objects, evidence, pdp))
            {
                return new PowerFit(largest, Derived, false, null);
            }

            int printable = (pdp + Step(pdp) - 1) / Step(pdp) * Step(pdp);
            int count = PowerRuleCheck.Count(objects, evidence.Cable, printable, printable, null);
            if (count < fewest || (count == fewest && Math.Abs(printable - largest) < Math.Abs(best - largest)))
            {
                (best, fewest) = (printable, count);
            }
        }

        return Judge(objects, evidence, best, Derived);
    }

    // Whole watts, half watts below 10 W (R3.2v1.1, 10.1).
    private static int Step(int milliwatts) => milliwatts < 10_000 ? 500 : 1000;

    private static PowerFit Judge(
        ReadOnlySpan<OfferedObject> objects, SourceEvidence evidence, int pdp, string basis)
    {
        if (Holds(objects, evidence, pdp))
        {
            return new PowerFit(pdp, basis, false, null);
        }

        bool managed = evidence.Sharing != PowerSharing.None && HoldsWhenReduced(objects, evidence, pdp);
        if (managed && evidence.Sharing == PowerSharing.InUse)
        {
            return new PowerFit(pdp, basis, false, null);
        }

        List<PowerBreach> breaches = [];
        PowerRuleCheck.Count(objects, evidence.Cable, pdp, pdp, breaches);
        return new PowerFit(pdp, basis, managed, breaches);
    }

    // Table 10.3: voltages of the maximum PDP, currents of a smaller present PDP. The maximum is the known one, or for
    // a derived PDP whatever row the highest voltage of the list belongs to. Before its first contract a managed port
    // may also leave out what a smaller source would not have (6.4.11).
    private static bool HoldsWhenReduced(ReadOnlySpan<OfferedObject> objects, SourceEvidence evidence, int pdp)
    {
        int maximum = evidence.Pdp is null ? PowerRules.SprMaximumMilliwatts : pdp;
        foreach (int present in Beginnings(objects))
        {
            if (present < maximum
                && (PowerRuleCheck.Count(objects, evidence.Cable, maximum, present, null) == 0
                    || Holds(objects, evidence, present)))
            {
                return true;
            }

            if (evidence.Pdp is null)
            {
                foreach (int row in (ReadOnlySpan<int>)[27_000, 45_000])
                {
                    if (present < row && PowerRuleCheck.Count(objects, evidence.Cable, row, present, null) == 0)
                    {
                        return true;
                    }
                }
            }
        }

        return false;
    }

    private static List<int> Beginnings(ReadOnlySpan<OfferedObject> objects)
    {
        List<int> beginnings = [1, 15_001, 27_001, 45_001, 60_001, PowerRules.SprMaximumMilliwatts + 1];
        foreach (OfferedObject offered in objects)
        {
            if (offered.Kind is PowerObjectKind.Fixed && !offered.IsZero)
            {
                FixedSourceSupply supply = offered.AsSource().AsFixed();
                int below = Math.Max(PowerRuleCheck.Offered(supply.MaximumCurrent) - 10, 0);
                beginnings.Add((int)((long)supply.Voltage.Millivolts * below / 1000) + 1);
            }
            else if (offered.Kind is PowerObjectKind.Variable)
            {
                VariableSourceSupply supply = offered.AsSource().AsVariable();
                int below = Math.Max(PowerRuleCheck.Offered(supply.MaximumCurrent) - 10, 0);
                beginnings.Add((int)((long)supply.MinimumVoltage.Millivolts * below / 1000) + 1);
            }
            else if (offered.Kind is PowerObjectKind.Battery)
            {
                beginnings.Add(offered.AsSource().AsBattery().MaximumPower.Milliwatts);
            }
        }

        return beginnings;
    }
}
