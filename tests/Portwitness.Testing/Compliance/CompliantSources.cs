using Portwitness.PowerDelivery.Limits;

namespace Portwitness.Testing.Compliance;

/// <summary>Compliant sources of every rating and edition. Other tests may take theirs from here.</summary>
public static class CompliantSources
{
    /// <summary>Every rating that can be printed (10.1), in mW: half watts below 10 W, whole watts up to 240 W.</summary>
    public static IEnumerable<int> Ratings =>
        Enumerable.Range(1, 19).Select(half => half * 500).Concat(Enumerable.Range(10, 231).Select(watts => watts * 1000));

    /// <summary>The editions that know a rating: above 100 W since R3.1.</summary>
    public static IEnumerable<Editions> EditionsFor(int rating) => rating > 100_000
        ? [Editions.R31, Editions.R32]
        : [Editions.R20, Editions.R30, Editions.R31, Editions.R32];

    /// <summary>Sources at their whole power, with everything that they may offer.</summary>
    public static IEnumerable<CompliantSource> AtFullPower()
    {
        foreach (int rating in Ratings)
        {
            foreach (Editions edition in EditionsFor(rating))
            {
                CompliantSource plain = new() { Maximum = rating, Present = rating, Edition = edition };
                foreach (CompliantSource source in Variants(plain).Where(source => source.Fits))
                {
                    yield return source;
                }
            }
        }
    }

    /// <summary>Sources whose present PDP is below their maximum.</summary>
    public static IEnumerable<CompliantSource> Reduced()
    {
        int[] present = [7_000, 15_000, 16_000, 18_000, 27_000, 28_000, 40_000, 45_000, 46_000, 60_000, 61_000, 65_000, 100_000, 101_000, 120_000, 141_000, 181_000];
        foreach (int rating in Ratings.Where(rating => rating % 1000 == 0))
        {
            foreach (int now in present.Where(now => now < rating))
            {
                foreach (Editions edition in EditionsFor(rating))
                {
                    CompliantSource source = new() { Maximum = rating, Present = now, Edition = edition };
                    yield return source;
                    yield return source with { RoundUp = true, LeavesOutWhatMay = true };
                    yield return source with { CableMilliamperes = 3000, PpsMinimum = PpsMinima(edition).Last() };
                }
            }
        }
    }

    private static IEnumerable<CompliantSource> Variants(CompliantSource source)
    {
        foreach (int cable in new[] { 3000, 5000 })
        {
            foreach (bool up in new[] { false, true })
            {
                foreach (int pps in PpsMinima(source.Edition))
                {
                    foreach (Extra extra in Extras(source))
                    {
                        CompliantSource one = source with { CableMilliamperes = cable, RoundUp = up, PpsMinimum = pps, Extra = extra };
                        yield return one;
                        if (extra == Extra.None && cable == 5000)
                        {
                            yield return one with { High = true };
                        }

                        if (source.IsEpr && extra == Extra.None)
                        {
                            yield return one with { SprModeAt20V = 4700 };
                            yield return one with { SprModeAt20V = 3250 };
                        }
                    }
                }
            }
        }
    }

    // The minimum of PPS rose from 3.0 V to 3.3 V and to 5 V; when exactly is not confirmed.
    private static int[] PpsMinima(Editions edition) => edition switch
    {
        Editions.R20 => [0],
        Editions.R30 => [0, 3000, 3300],
        Editions.R31 => [0, 3300, 5000],
        _ => [0, 5000],
    };

    // R3.2 allows optional voltages up to 9 V, and none from EPR sources (10.2.3.1); 12 V was optional before.
    private static IEnumerable<Extra> Extras(CompliantSource source)
    {
        yield return Extra.None;
        if (!source.IsEpr)
        {
            yield return Extra.Battery;
            yield return Extra.Variable;
            yield return Extra.Voltage8;
            if (source.Edition != Editions.R32)
            {
                yield return Extra.Voltage12;
            }
        }
    }
}
