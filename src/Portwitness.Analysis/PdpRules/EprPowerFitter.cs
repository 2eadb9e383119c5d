using Portwitness.Analysis.Evidence;
using Portwitness.PowerDelivery.PowerData;

namespace Portwitness.Analysis.PdpRules;

/// <summary>
/// Finds the PDP that an EPR list agrees with. Its EPR AVS object states the present PDP (R3.2v1.1, Table 6.15); the
/// maximum is declared, printed, or that of the row which the highest EPR voltage belongs to (Tables 10.12 and 10.13).
/// </summary>
internal static class EprPowerFitter
{
    /// <summary>Judges an EPR list that has EPR objects.</summary>
    public static PowerFit Fit(ReadOnlySpan<OfferedObject> objects, SourceEvidence evidence, bool inEprMode)
    {
        int stated = Stated(objects);
        if (stated == 0)
        {
            return default;
        }

        // A printed figure that is none of EPR is about something else; that is for the comparison with the label.
        (int maximum, PdpBasis basis) = evidence is { Pdp: { } pdp, PdpBasis: var known }
            && (pdp.Milliwatts > PowerRules.SprMaximumMilliwatts || known == PdpBasis.Declared)
                ? (pdp.Milliwatts, known)
                : (stated, PdpBasis.Derived);
        PowerCase full = new(evidence.Cable, maximum, maximum, true, inEprMode);
        if (Holds(objects, full))
        {
            return PowerFit.InFull(maximum, basis);
        }

        // Without a stated maximum, heat or a weak input may be what reduces the port of a product with one port, too.
        bool reduced = basis == PdpBasis.Derived
            ? HoldsWhenReduced(objects, full with { MaximumPdp = ImpliedRow(objects) }, stated)
            : evidence.Sharing != PowerSharing.None && HoldsWhenReduced(objects, full, stated);
        if (reduced && evidence.Sharing == PowerSharing.InUse)
        {
            return new PowerFit(maximum, basis, true, null) { CompleteMilliwatts = stated };
        }

        List<PowerBreach> breaches = [];
        PowerRuleCheck.Count(objects, full, breaches);
        return new PowerFit(maximum, basis, reduced, breaches) { CompleteMilliwatts = reduced ? stated : 0 };
    }

    /// <summary>Whether a list has objects of EPR.</summary>
    public static bool HasEprObjects(ReadOnlySpan<OfferedObject> objects)
    {
        foreach (OfferedObject offered in objects)
        {
            if (offered.Position >= PowerDelivery.Limits.MessageLimits.FirstEprPosition && !offered.IsZero)
            {
                return true;
            }
        }

        return false;
    }

    private static bool Holds(ReadOnlySpan<OfferedObject> objects, in PowerCase rules) =>
        PowerRuleCheck.Count(objects, rules, null) == 0;

    // Table 10.13: voltages of the maximum PDP, currents of a present PDP of which the object states whole watts.
    private static bool HoldsWhenReduced(ReadOnlySpan<OfferedObject> objects, in PowerCase full, int stated)
    {
        if (stated < full.MaximumPdp && Holds(objects, full with { PresentPdp = stated }))
        {
            return true;
        }

        Span<int> beginnings = stackalloc int[PowerFitter.MaxBeginnings];
        foreach (int present in beginnings[..PowerFitter.Beginnings(objects, beginnings)])
        {
            if (present >= stated && present < Math.Min(stated + 1000, full.MaximumPdp)
                && Holds(objects, full with { PresentPdp = present }))
            {
                return true;
            }
        }

        return false;
    }

    // The present PDP as EPR AVS states it, or the figure nearest to the largest fixed power.
    private static int Stated(ReadOnlySpan<OfferedObject> objects)
    {
        foreach (OfferedObject offered in objects)
        {
            if (offered.Is(PowerObjectKind.EprAvs) && offered.Knows(EprAvsSourceSupply.PdpField))
            {
                return offered.AsSource().AsEprAvs().Pdp.Milliwatts;
            }
        }

        return (PowerFitter.LargestFixedPower(objects) + 500) / 1000 * 1000;
    }

    // The largest PDP of the row that the highest EPR voltage belongs to.
    private static int ImpliedRow(ReadOnlySpan<OfferedObject> objects)
    {
        int highest = 0;
        foreach (OfferedObject offered in objects)
        {
            highest = Math.Max(highest, offered.HighestVoltage()?.Millivolts ?? 0);
        }

        return highest <= 28_000 ? 140_000 : highest <= 36_000 ? 180_000 : PowerRules.EprMaximumMilliwatts;
    }
}
