using System.Collections.Immutable;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Labels;

/// <summary>Gives the values of a combination to its ports.</summary>
internal sealed class CombinationReading(CombinationPiece piece, LabelBuilder builder)
{
    private readonly CombinationRating _rating = piece.Rating ?? new CombinationRating();

    /// <summary>One for each set of ports; null when the values do not fit the ports: then it is not clear which is whose.</summary>
    public ImmutableArray<PrintedCombination>? Read()
    {
        ImmutableArray<PrintedCombination>.Builder read = ImmutableArray.CreateBuilder<PrintedCombination>(piece.Sets.Length);
        foreach (ImmutableArray<ImmutableArray<string>> groups in piece.Sets)
        {
            ImmutableArray<string> ports = [.. groups.SelectMany(static group => group)];
            if (piece.Rating is null || ports.DistinctBy(PortNames.Key).Count() != ports.Length
                || !TryShare(groups, ports, out ImmutableArray<PrintedShare> split, out ImmutableArray<PrintedPool> pools))
            {
                return null;
            }

            read.Add(new PrintedCombination(
                ports, split, pools, LabelBuilder.PowerOf(_rating.Total), builder.PlaceOf(piece), builder.TextOf(piece)));
        }

        return read.ToImmutable();
    }

    /// <summary>What to say of values that are not as many as the ports; null when that is not what is wrong.</summary>
    public UnfitSplit? Unfit()
    {
        int values = _rating.Shares.Length;
        bool isUnfit = values > 1 && piece.Sets is [var groups] && groups.Length != values && _rating.Shares.All(static share => share.Port is null);
        return isUnfit
            ? new UnfitSplit([.. piece.Sets[0].SelectMany(static group => group)], values, builder.PlaceOf(piece), builder.TextOf(piece))
            : null;
    }

    private bool TryShare(
        ImmutableArray<ImmutableArray<string>> groups, ImmutableArray<string> ports,
        out ImmutableArray<PrintedShare> split, out ImmutableArray<PrintedPool> pools)
    {
        (split, pools) = ([], []);
        if (_rating.Pool is { } pool && _rating.IsForEach)
        {
            SharePiece each = new(null, null, [(pool, null)]);
            split = [.. ports.Select(port => Share(port, each))];
            return true;
        }

        if (_rating.Pool is { } shared)
        {
            pools = [Pool(ports, shared)];
            return true;
        }

        if (_rating.IsForEach && _rating.Shares is [var one])
        {
            split = [.. ports.Select(port => Share(port, one))];
            return true;
        }

        return _rating.Shares.IsEmpty
            || (_rating.Shares.Length == groups.Length && ByOrderOrName(groups, out split, out pools));
    }

    // Named shares may come in any order, but each port once; a group takes one value that its ports share.
    private bool ByOrderOrName(
        ImmutableArray<ImmutableArray<string>> groups, out ImmutableArray<PrintedShare> split, out ImmutableArray<PrintedPool> pools)
    {
        List<PrintedShare> shares = [];
        List<PrintedPool> shared = [];
        (split, pools) = ([], []);
        Dictionary<string, string> byKey = groups.Where(static group => group.Length == 1)
            .ToDictionary(static group => PortNames.Key(group[0]), static group => group[0]);
        for (int i = 0; i < groups.Length; i++)
        {
            SharePiece share = _rating.Shares[i];
            if (groups[i].Length > 1)
            {
                if (share.Port is not null || share.Ratings is not ([] or [(ModePiece, _)]))
                {
                    return false;
                }

                shared.Add(share.Ratings is [(ModePiece mode, _)]
                    ? Pool(groups[i], mode) : new PrintedPool(groups[i], null, null, LabelBuilder.PowerOf(share.Watts)));
            }
            else if (byKey.Remove(PortNames.Key(share.Port ?? groups[i][0]), out string? port))
            {
                shares.Add(Share(port, share));
            }
            else
            {
                return false;
            }
        }

        (split, pools) = ([.. shares], [.. shared]);
        return true;
    }

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
        Voltage volts = Voltage.FromMillivolts(mode.Volts.Value);
        Current amps = Current.FromMilliamperes(mode.Amps.Value);
        return new PrintedPool(ports, volts, amps, LabelBuilder.PowerOf(mode.Watts) ?? volts * amps);
    }
}
