using System.Collections.Immutable;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Labels;

/// <summary>Gives the values of a combination to its ports.</summary>
internal sealed class CombinationReading(CombinationPiece piece, LabelBuilder builder)
{
    // More readings tell nothing.
    private const int MaxReadings = 6;

    private readonly CombinationRating? _rating = piece.Rating;

    /// <summary>One for each set of ports; null when the values do not fit the ports: then it is not clear which is whose.</summary>
    public ImmutableArray<PrintedCombination>? Read()
    {
        ImmutableArray<PrintedCombination>.Builder read = ImmutableArray.CreateBuilder<PrintedCombination>(piece.Sets.Length);
        foreach (ImmutableArray<ImmutableArray<string>> groups in piece.Sets)
        {
            ImmutableArray<string> ports = [.. groups.SelectMany(static group => group)];
            if (_rating is null || !AreApart(ports) || Share(groups, ports) is not var (split, pools))
            {
                return null;
            }

            read.Add(Printed(ports, split, pools));
        }

        return read.ToImmutable();
    }

    /// <summary>
    /// The ways to read what <see cref="Read"/> does not: one mode is shared or each one's; of fewer values than ports one is of several
    /// neighbouring ports together. Empty when there is none.
    /// </summary>
    public ImmutableArray<PrintedCombination> Readings()
    {
        if (_rating is null || piece.Sets is not [var groups] || groups.Any(static group => group.Length > 1))
        {
            return [];
        }

        ImmutableArray<string> ports = [.. groups.Select(static group => group[0])];
        if (!AreApart(ports))
        {
            return [];
        }

        if (_rating.Pool is { } mode)
        {
            return [Printed(ports, [], [Pool(ports, mode)]), Printed(ports, Each(ports, new SharePiece([], null, [(mode, null)])), [])];
        }

        int values = _rating.Shares.Length;
        bool isFewer = values > 1 && values < ports.Length && _rating.Shares.All(static share => share is { Ports.IsEmpty: true, Ratings.IsEmpty: true });
        return !isFewer ? [] :
        [
            .. Lengths(ports.Length, values).Take(MaxReadings).Select(lengths =>
            {
                (ImmutableArray<PrintedShare> split, ImmutableArray<PrintedPool> pools) = InOrder(Cut(ports, lengths));
                return Printed(ports, split, pools);
            }),
        ];
    }

    /// <summary>
    /// Whether arithmetic speaks for a reading: its last value is of the last ports together, and the values make the printed total or
    /// are printed for the same ports elsewhere.
    /// </summary>
    public static bool IsSettledBy(PrintedCombination reading, Power? total, IEnumerable<PrintedCombination> others)
    {
        if (reading.Pools is not [{ Power: { } power } pool] || reading.Split.Length != reading.Ports.Length - pool.Ports.Length || reading.Split.IsEmpty
            || !reading.Ports.TakeLast(pool.Ports.Length).SequenceEqual(pool.Ports))
        {
            return false;
        }

        int sum = power.Milliwatts + reading.Split.Sum(static share => share.Power?.Milliwatts ?? 0);
        return (reading.Total ?? total)?.Milliwatts == sum || others.Any(other => other.Ports.ToHashSet().SetEquals(pool.Ports)
            && (other.Total ?? (other.Pools is [{ } one] ? one.Power : null))?.Milliwatts == power.Milliwatts);
    }

    /// <summary>What to say of values that are more than the ports; null when that is not what is wrong.</summary>
    public UnfitSplit? Unfit()
    {
        int values = _rating?.Shares.Length ?? 0;
        bool isUnfit = values > 1 && piece.Sets is [var groups] && groups.Length != values && _rating!.Shares.All(static share => share.Ports.IsEmpty);
        return isUnfit
            ? new UnfitSplit([.. piece.Sets[0].SelectMany(static group => group)], values, builder.PlaceOf(piece), builder.TextOf(piece))
            : null;
    }

    private static bool AreApart(ImmutableArray<string> ports) => ports.DistinctBy(PortNames.Key).Count() == ports.Length;

    private PrintedCombination Printed(ImmutableArray<string> ports, ImmutableArray<PrintedShare> split, ImmutableArray<PrintedPool> pools) =>
        new(ports, split, pools, LabelBuilder.PowerOf(_rating!.Total), builder.PlaceOf(piece), builder.TextOf(piece));

    private (ImmutableArray<PrintedShare> Split, ImmutableArray<PrintedPool> Pools)? Share(
        ImmutableArray<ImmutableArray<string>> groups, ImmutableArray<string> ports)
    {
        if (_rating!.Pool is { } pool)
        {
            return _rating.IsForEach ? (Each(ports, new SharePiece([], null, [(pool, null)])), [])
                : _rating.IsSaidToBeShared ? ([], [Pool(ports, pool)]) : null;
        }

        if (_rating.IsForEach && _rating.Shares is [var one])
        {
            return (Each(ports, one), []);
        }

        return _rating.Shares.IsEmpty ? ([], []) : Groups(groups, ports) is { } owners ? InOrder(owners) : null;
    }

    // The ports of each value: printed with it, or in their order.
    private List<ImmutableArray<string>>? Groups(ImmutableArray<ImmutableArray<string>> groups, ImmutableArray<string> ports)
    {
        ImmutableArray<SharePiece> shares = _rating!.Shares;
        HashSet<string> named = [.. shares.SelectMany(static share => share.Ports).Concat(_rating.SharedBy).Select(PortNames.Key)];
        List<ImmutableArray<string>> rest = named.Count == 0 ? [.. groups]
            : [.. ports.Where(port => !named.Contains(PortNames.Key(port))).Select(static ImmutableArray<string> (port) => [port])];
        List<ImmutableArray<string>> owners = [];
        int next = 0;
        for (int i = 0; i < shares.Length; i++)
        {
            ImmutableArray<string> own = !shares[i].Ports.IsEmpty ? shares[i].Ports
                : i == shares.Length - 1 && !_rating.SharedBy.IsEmpty ? _rating.SharedBy
                : i == shares.Length - 1 && _rating.IsLastShared ? Rest(rest, ref next)
                : next < rest.Count ? rest[next++] : [];
            if (own.IsEmpty)
            {
                return null;
            }

            owners.Add([.. own.Select(name => ports.FirstOrDefault(port => PortNames.Same(port, name)) ?? "")]);
        }

        bool isWhole = next == rest.Count && owners.Sum(static group => group.Length) == ports.Length
            && AreApart([.. owners.SelectMany(static group => group)]) && !owners.Exists(static group => group.Contains(""));
        return isWhole ? owners : null;
    }

    // Two or more that have no value of their own.
    private static ImmutableArray<string> Rest(List<ImmutableArray<string>> groups, ref int next)
    {
        ImmutableArray<string> ports = [.. groups.Skip(next).SelectMany(static group => group)];
        next = groups.Count;
        return ports.Length > 1 ? ports : [];
    }

    // A group takes one value that its ports share.
    private (ImmutableArray<PrintedShare> Split, ImmutableArray<PrintedPool> Pools) InOrder(List<ImmutableArray<string>> owners)
    {
        List<PrintedShare> split = [];
        List<PrintedPool> pools = [];
        for (int i = 0; i < owners.Count; i++)
        {
            SharePiece share = _rating!.Shares[i];
            if (owners[i] is [var port])
            {
                split.Add(Share(port, share));
            }
            else
            {
                pools.Add(share.Ratings is [(ModePiece mode, _)]
                    ? Pool(owners[i], mode) : new PrintedPool(owners[i], null, null, LabelBuilder.PowerOf(share.Watts)));
            }
        }

        return ([.. split], [.. pools]);
    }

    private ImmutableArray<PrintedShare> Each(ImmutableArray<string> ports, SharePiece each) => [.. ports.Select(port => Share(port, each))];

    private PrintedShare Share(string port, SharePiece share) => new(
        port, LabelBuilder.PowerOf(share.Watts),
        [
            .. share.Ratings.Where(static one => one.Rating is ModePiece).Select(one => (Mode: (ModePiece)one.Rating, one.Protocol))
                .Select(one => Ratings.Of(one.Mode, builder, one.Protocol, one.Mode.Watts)),
        ])
    {
        Ranges =
        [
            .. share.Ratings.Where(static one => one.Rating is RangePiece).Select(one => (Range: (RangePiece)one.Rating, one.Protocol))
                .SelectMany(one => Ratings.Of(one.Range, builder, one.Protocol, one.Range.Watts)),
        ],
    };

    private static PrintedPool Pool(ImmutableArray<string> ports, ModePiece mode)
    {
        PrintedPool pool = LabelBuilder.PoolOf(ports, mode.Volts, mode.Amps);
        return mode.Watts is null ? pool : pool with { Power = LabelBuilder.PowerOf(mode.Watts) };
    }

    // Ways to cut so many ports into so many groups of neighbours, the last group the longest first.
    private static IEnumerable<int[]> Lengths(int ports, int values)
    {
        if (values == 1)
        {
            yield return [ports];
            yield break;
        }

        for (int first = 1; first <= ports - values + 1; first++)
        {
            foreach (int[] rest in Lengths(ports - first, values - 1))
            {
                yield return [first, .. rest];
            }
        }
    }

    private static List<ImmutableArray<string>> Cut(ImmutableArray<string> ports, int[] lengths)
    {
        List<ImmutableArray<string>> groups = [];
        int start = 0;
        foreach (int length in lengths)
        {
            groups.Add([.. ports.Skip(start).Take(length)]);
            start += length;
        }

        return groups;
    }
}
