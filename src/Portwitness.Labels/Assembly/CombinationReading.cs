using System.Collections.Immutable;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Labels;

/// <summary>Gives the values of a combination to its ports.</summary>
internal static class CombinationReading
{
    /// <summary>Null when the values do not fit the ports: then it is not clear which is whose.</summary>
    public static PrintedCombination? Read(CombinationPiece piece, LabelBuilder builder)
    {
        if (piece.Rating is null || piece.Ports.DistinctBy(PortNames.Key).Count() != piece.Ports.Length)
        {
            return null;
        }

        ImmutableArray<PrintedShare>? split = Split(piece.Ports, piece.Rating, builder);
        return split is null ? null : new PrintedCombination(
            piece.Ports, split.Value, Pools(piece.Ports, piece.Rating), LabelBuilder.PowerOf(piece.Rating.Total),
            builder.PlaceOf(piece.First), builder.TextOf(piece));
    }

    private static ImmutableArray<PrintedShare>? Split(ImmutableArray<string> ports, CombinationRating rating, LabelBuilder builder)
    {
        if (rating.Shares.IsEmpty)
        {
            return [];
        }

        if (rating.Shares.Length != ports.Length)
        {
            return null;
        }

        // Named shares may come in any order, but each port once.
        Dictionary<string, string> byKey = ports.ToDictionary(PortNames.Key);
        ImmutableArray<PrintedShare>.Builder split = ImmutableArray.CreateBuilder<PrintedShare>(ports.Length);
        for (int i = 0; i < ports.Length; i++)
        {
            (string? printed, Token? watts, ImmutableArray<ModePiece> modes) = rating.Shares[i];
            if (!byKey.Remove(PortNames.Key(printed ?? ports[i]), out string? port))
            {
                return null;
            }

            split.Add(new PrintedShare(
                port, LabelBuilder.PowerOf(watts), [.. modes.Select(mode => Ratings.Of(mode, builder, null, mode.Watts))]));
        }

        return split.ToImmutable();
    }

    private static ImmutableArray<PrintedPool> Pools(ImmutableArray<string> ports, CombinationRating rating)
    {
        if (rating.Pool is not { } mode)
        {
            return [];
        }

        Voltage volts = Voltage.FromMillivolts(mode.Volts.Value);
        Current amps = Current.FromMilliamperes(mode.Amps.Value);
        return [new PrintedPool(ports, volts, amps, LabelBuilder.PowerOf(mode.Watts) ?? volts * amps)];
    }
}
