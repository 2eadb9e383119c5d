using Portwitness.Analysis.Profile;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Analysis.PdpRules;

/// <summary>
/// Finds the PDP that a list agrees with. A list of unknown PDP breaks a power rule only when no PDP at all, and no
/// reduced present PDP of a port that may be managed, would satisfy it.
/// </summary>
public static class PowerFitter
{
    // As many as a list can have objects, and the rows of the tables.
    internal const int MostBeginnings = CapabilityChecker.MostObjects + 6;

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
        int step = PowerRules.RatingStep(largest);
        int floor = largest / step * step;
        int above = floor + step;
        (int nearest, int other) = largest - floor < above - largest ? (floor, above) : (above, floor);
        if (Holds(objects, evidence, nearest))
        {
            return new PowerFit(nearest, PowerFit.Derived, false, null);
        }

        if (other > 0 && Holds(objects, evidence, other))
        {
            return new PowerFit(other, PowerFit.Derived, false, null);
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
        Count(objects, evidence, pdp, pdp) == 0;

    private static int Count(ReadOnlySpan<OfferedObject> objects, SourceEvidence evidence, int maximum, int present) =>
        PowerRuleCheck.Count(objects, new PowerCase(evidence.Cable, maximum, present), null);

    // The PDPs that satisfy a list form intervals that begin just above a row of the table or just above the power at
    // which an object's current is the rounded-up one. Trying the beginnings finds one if there is one; if there is
    // none, the list is judged by the printable figure that it breaks least, the nearest to its largest power.
    private static PowerFit Search(ReadOnlySpan<OfferedObject> objects, SourceEvidence evidence, int largest, int nearest)
    {
        int best = nearest;
        int fewest = Count(objects, evidence, nearest, nearest);
        bool holds = false;
        Span<int> beginnings = stackalloc int[MostBeginnings];
        foreach (int pdp in beginnings[..Beginnings(objects, beginnings)])
        {
            int printable = PowerRules.NextRating(pdp);
            int count = Count(objects, evidence, printable, printable);
            if (count == 0)
            {
                return new PowerFit(largest, PowerFit.Derived, false, null);
            }

            holds |= Holds(objects, evidence, pdp);
            if (count < fewest || (count == fewest && Math.Abs(printable - largest) < Math.Abs(best - largest)))
            {
                (best, fewest) = (printable, count);
            }
        }

        if (holds)
        {
            return new PowerFit(largest, PowerFit.Derived, false, null) { FitsARating = false };
        }

        return Judge(objects, evidence, best, PowerFit.Derived);
    }

    private static PowerFit Judge(
        ReadOnlySpan<OfferedObject> objects, SourceEvidence evidence, int pdp, string basis)
    {
        if (Holds(objects, evidence, pdp))
        {
            return new PowerFit(pdp, basis, false, null);
        }

        bool reduced = evidence.Sharing != PowerSharing.None && HoldsWhenReduced(objects, evidence, pdp);
        if (reduced && evidence.Sharing == PowerSharing.InUse)
        {
            return new PowerFit(pdp, basis, true, null);
        }

        List<PowerBreach> breaches = [];
        PowerRuleCheck.Count(objects, new PowerCase(evidence.Cable, pdp, pdp), breaches);
        return new PowerFit(pdp, basis, reduced, breaches);
    }

    // Table 10.3: voltages of the maximum PDP, currents of a smaller present PDP. The maximum is the known one, or for
    // a derived PDP whatever row the highest voltage of the list belongs to. Before its first contract a managed port
    // may also leave out what a smaller source would not have (6.4.11).
    private static bool HoldsWhenReduced(ReadOnlySpan<OfferedObject> objects, SourceEvidence evidence, int pdp)
    {
        int maximum = evidence.Pdp is null ? PowerRules.SprMaximumMilliwatts : pdp;
        Span<int> beginnings = stackalloc int[MostBeginnings];
        foreach (int present in beginnings[..Beginnings(objects, beginnings)])
        {
            if (present < maximum
                && (Count(objects, evidence, maximum, present) == 0
                    || Holds(objects, evidence, present)))
            {
                return true;
            }

            if (evidence.Pdp is null)
            {
                foreach (int row in (ReadOnlySpan<int>)[27_000, 45_000])
                {
                    if (present < row && Count(objects, evidence, row, present) == 0)
                    {
                        return true;
                    }
                }
            }
        }

        return false;
    }

    /// <summary>Powers just above which a list begins to hold; gives how many there are.</summary>
    internal static int Beginnings(ReadOnlySpan<OfferedObject> objects, Span<int> beginnings)
    {
        ReadOnlySpan<int> rows = [1, 15_001, 27_001, 45_001, 60_001, PowerRules.SprMaximumMilliwatts + 1];
        rows.CopyTo(beginnings);
        int count = rows.Length;
        foreach (OfferedObject offered in objects)
        {
            SourcePowerObject word = offered.AsSource();
            switch (offered.Kind)
            {
                case PowerObjectKind.Fixed when !offered.IsZero:
                    beginnings[count++] = Beginning(word.AsFixed().Voltage, word.AsFixed().MaximumCurrent);
                    break;
                case PowerObjectKind.Variable:
                    beginnings[count++] = Beginning(word.AsVariable().MinimumVoltage, word.AsVariable().MaximumCurrent);
                    break;
                case PowerObjectKind.Battery:
                    beginnings[count++] = word.AsBattery().MaximumPower.Milliwatts;
                    break;
                default:
                    break;
            }
        }

        return count;
    }

    // Just above the power whose rounded-up current is the step below the object's.
    private static int Beginning(Voltage voltage, Current current) =>
        (int)((long)voltage.Millivolts * Math.Max(PowerRuleCheck.Offered(current) - 10, 0) / 1000) + 1;
}
