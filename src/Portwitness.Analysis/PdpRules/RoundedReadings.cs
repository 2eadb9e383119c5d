using System.Collections.Immutable;
using Portwitness.PowerDelivery.PowerData;

namespace Portwitness.Analysis.PdpRules;

/// <summary>
/// The lists that a list with rounded currents may be: as it is written, and for each PDP in whole watts that its largest offer allows with
/// the currents that the PDP gives, rounded down and up (R3.2v1.1, 10.2), where they round to what is written.
/// </summary>
internal static class RoundedReadings
{
    private const int MilliwattsPerWatt = 1_000;
    private const int MaxWatts = 240;

    /// <summary>The readings, the written one first, none twice.</summary>
    /// <param name="objects">As written.</param>
    /// <param name="roundedTo">The step that currents may be rounded to, in milliamperes.</param>
    public static IReadOnlyList<ImmutableArray<OfferedObject>> Of(ImmutableArray<OfferedObject> objects, int roundedTo)
    {
        List<ImmutableArray<OfferedObject>> readings = [objects];
        int half = roundedTo / 2;
        (long least, long most) = (0, 0);
        foreach (OfferedObject offered in objects)
        {
            if (offered is { KindIsKnown: true, Kind: PowerObjectKind.Fixed } && offered.Knows(FixedSourceSupply.MaximumCurrentField))
            {
                FixedSourceSupply supply = offered.AsSource().AsFixed();
                (int volts, int amperes) = (supply.Voltage.Millivolts, supply.MaximumCurrent.Milliamperes);
                least = Math.Max(least, (long)volts * Math.Max(0, amperes - half) / MilliwattsPerWatt);
                most = Math.Max(most, (long)volts * (amperes + half) / MilliwattsPerWatt);
            }
        }

        for (long watts = least / MilliwattsPerWatt; watts <= Math.Min(MaxWatts, (most / MilliwattsPerWatt) + 1); watts++)
        {
            foreach (bool isUp in (ReadOnlySpan<bool>)[false, true])
            {
                ImmutableArray<OfferedObject> reading = Of(objects, (int)watts * MilliwattsPerWatt, half, isUp);
                if (!readings.Exists(other => other.SequenceEqual(reading)))
                {
                    readings.Add(reading);
                }
            }
        }

        return readings;
    }

    private static ImmutableArray<OfferedObject> Of(ImmutableArray<OfferedObject> objects, int milliwatts, int half, bool isUp)
    {
        ImmutableArray<OfferedObject> fixedOnes = [.. objects.Select(offered => Fixed(offered, milliwatts, half, isUp))];
        return [.. fixedOnes.Select(offered => Adjustable(offered, fixedOnes, milliwatts, half))];
    }

    private static OfferedObject Fixed(OfferedObject offered, int milliwatts, int half, bool isUp)
    {
        if (offered is not { KindIsKnown: true, Kind: PowerObjectKind.Fixed, IsZero: false })
        {
            return offered;
        }

        FixedSourceSupply supply = offered.AsSource().AsFixed();
        int millivolts = Math.Max(1, supply.Voltage.Millivolts);
        int current = isUp ? PowerRules.RoundUp(milliwatts, millivolts) : PowerRules.RoundDown(milliwatts, millivolts);
        return Math.Abs(current - supply.MaximumCurrent.Milliamperes) <= half
            ? offered with { Raw = FixedSourceSupply.MaximumCurrentField.SetScaled(offered.Raw, current) }
            : offered;
    }

    // PPS rounds down to 50 mA of its nominal voltage (10.2); SPR AVS has the currents of 15 V and 20 V (Table 6.14).
    private static OfferedObject Adjustable(OfferedObject offered, ImmutableArray<OfferedObject> all, int milliwatts, int half)
    {
        if (!offered.KindIsKnown)
        {
            return offered;
        }

        if (offered.Kind == PowerObjectKind.Pps)
        {
            PpsSourceSupply supply = offered.AsSource().AsPps();
            int? nominal = PpsRules.ProgOf(supply.MaximumVoltage);
            return nominal is { } volts && PpsRules.RoundDown(milliwatts, volts) is var current
                && Math.Abs(current - supply.MaximumCurrent.Milliamperes) <= half
                ? offered with { Raw = PpsSourceSupply.CurrentField.SetScaled(offered.Raw, current) }
                : offered;
        }

        if (offered.Kind == PowerObjectKind.SprAvs)
        {
            SprAvsSourceSupply supply = offered.AsSource().AsSprAvs();
            uint raw = SprAvsSourceSupply.Current15Field.SetScaled(offered.Raw, Near(all, 15_000, supply.MaximumCurrentTo15V.Milliamperes, half));
            int to20V = supply.MaximumCurrentTo20V.Milliamperes;
            return offered with { Raw = to20V == 0 ? raw : SprAvsSourceSupply.Current20Field.SetScaled(raw, Near(all, 20_000, to20V, half)) };
        }

        return offered;
    }

    private static int Near(ImmutableArray<OfferedObject> all, int millivolts, int written, int half)
    {
        foreach (OfferedObject offered in all)
        {
            if (offered is { KindIsKnown: true, Kind: PowerObjectKind.Fixed } && offered.AsSource().AsFixed() is var supply
                && supply.Voltage.Millivolts == millivolts && Math.Abs(supply.MaximumCurrent.Milliamperes - written) <= half)
            {
                return supply.MaximumCurrent.Milliamperes;
            }
        }

        return written;
    }
}
