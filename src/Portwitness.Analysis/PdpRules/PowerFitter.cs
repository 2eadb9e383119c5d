using Portwitness.Analysis.Evidence;
using Portwitness.PowerDelivery.Limits;
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
    internal const int MaxBeginnings = MessageLimits.MaxExtendedObjects + 6;

    // How an expert reads a list that no rating explains: nobody takes a source for one of less than half the power that it
    // offers, nor prefers a rating to the obvious one that leaves nearly as many faults (common practice, no source).
    private const int MaxExcess = 2;
    private const int MuchFewer = 2;

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
        if (Holds(objects, evidence, nearest) || FollowsProfile(objects, evidence))
        {
            return PowerFit.InFull(nearest, PdpBasis.Derived);
        }

        if (other > 0 && Holds(objects, evidence, other))
        {
            return PowerFit.InFull(other, PdpBasis.Derived);
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

    /// <summary>The least power that the current of the object with the largest one can be rounded up from, in mW (10.2).</summary>
    public static int LowestPower(ReadOnlySpan<OfferedObject> objects)
    {
        int largest = LargestFixedPower(objects);
        foreach (OfferedObject offered in objects)
        {
            if (offered.Is(PowerObjectKind.Fixed) && !offered.IsZero && offered.AsSource().AsFixed() is var supply
                && (int)((long)supply.Voltage.Millivolts * PowerRuleCheck.Offered(supply.MaximumCurrent) / 1000) == largest)
            {
                return Beginning(supply.Voltage, supply.MaximumCurrent);
            }
        }

        return largest;
    }

    private static bool Holds(ReadOnlySpan<OfferedObject> objects, SourceEvidence evidence, int pdp) =>
        Count(objects, evidence, pdp, pdp) == 0;

    private static int Count(ReadOnlySpan<OfferedObject> objects, SourceEvidence evidence, int maximum, int present) =>
        PowerRuleCheck.Count(objects, new PowerCase(evidence.Cable, maximum, present), null);

    private static bool FollowsProfile(ReadOnlySpan<OfferedObject> objects, SourceEvidence evidence) =>
        evidence.MayFollowProfiles && ProfileRules.Allow(objects);

    // The PDPs that satisfy a list form intervals that begin just above a row of the table or just above the power at
    // which an object's current is the rounded-up one. Trying the beginnings finds one if there is one; if there is
    // none, the list is judged by the printable figure that explains it best.
    private static PowerFit Search(ReadOnlySpan<OfferedObject> objects, SourceEvidence evidence, int largest, int nearest)
    {
        (int best, int fewest) = (0, int.MaxValue);
        bool holds = false;
        Span<int> beginnings = stackalloc int[MaxBeginnings];
        foreach (int pdp in beginnings[..Beginnings(objects, beginnings)])
        {
            int printable = PowerRules.NextRating(pdp);
            int count = Count(objects, evidence, printable, printable);
            if (count == 0)
            {
                return PowerFit.InFull(largest, PdpBasis.Derived);
            }

            holds |= Holds(objects, evidence, pdp);
            bool explains = largest <= MaxExcess * printable;
            if (explains && (count < fewest || (count == fewest && Math.Abs(printable - largest) < Math.Abs(best - largest))))
            {
                (best, fewest) = (printable, count);
            }
        }

        if (holds)
        {
            return PowerFit.InFull(largest, PdpBasis.Derived) with { FitsARating = false };
        }

        // The rating nearest to the largest power names the source, unless another one leaves half the breaches or fewer.
        bool muchBetter = MuchFewer * fewest <= Count(objects, evidence, nearest, nearest);
        return Judge(objects, evidence, muchBetter ? best : nearest, PdpBasis.Derived);
    }

    private static PowerFit Judge(
        ReadOnlySpan<OfferedObject> objects, SourceEvidence evidence, int pdp, PdpBasis basis)
    {
        if (Holds(objects, evidence, pdp) || FollowsProfile(objects, evidence))
        {
            return PowerFit.InFull(pdp, basis);
        }

        int present = evidence.Sharing == PowerSharing.None ? 0 : PresentWhenReduced(objects, evidence, pdp);
        bool reduced = present > 0;
        if (reduced && evidence.Sharing == PowerSharing.InUse)
        {
            return new PowerFit(pdp, basis, true, null) { CompleteMilliwatts = present };
        }

        List<PowerBreach> breaches = [];
        PowerRuleCheck.Count(objects, new PowerCase(evidence.Cable, pdp, pdp), breaches);
        return new PowerFit(pdp, basis, reduced, breaches) { CompleteMilliwatts = present };
    }

    // Table 10.3: voltages of the maximum PDP, currents of a smaller present PDP, which is returned; 0 when none fits. The
    // maximum is the known one, or for a derived PDP that of the row which the highest voltage belongs to. Before its first
    // contract a managed port may also leave out what a smaller source would not have (6.4.11).
    private static int PresentWhenReduced(ReadOnlySpan<OfferedObject> objects, SourceEvidence evidence, int pdp)
    {
        int maximum = evidence.Pdp is null ? PowerRules.SprMaximumMilliwatts : pdp;
        Span<int> beginnings = stackalloc int[MaxBeginnings];
        foreach (int present in beginnings[..Beginnings(objects, beginnings)])
        {
            if (present < maximum
                && (Count(objects, evidence, maximum, present) == 0
                    || Holds(objects, evidence, present)))
            {
                return present;
            }

            if (evidence.Pdp is null)
            {
                foreach (int row in (ReadOnlySpan<int>)[27_000, 45_000])
                {
                    if (present < row && Count(objects, evidence, row, present) == 0)
                    {
                        return present;
                    }
                }
            }
        }

        return 0;
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
