using System.Collections.Immutable;
using Portwitness.Analysis;
using Portwitness.Analysis.Profile;
using Portwitness.Following.Contracts;
using Portwitness.Labels;
using Portwitness.PowerDelivery.Units;
using Portwitness.Product.Offers;

namespace Portwitness.Product.Arrangements;

/// <summary>One port under one arrangement: what it offers, what it lost against being alone, what was granted and measured.</summary>
public sealed record ArrangementRow
{
    private const int PlainCableMilliwatts = 60_000;

    /// <summary>What the port offers.</summary>
    public required PortOffer Offer { get; init; }

    /// <summary>What it offers alone; null when that was not captured.</summary>
    public required PortOffer? Alone { get; init; }

    /// <summary>Objects that differ from the port alone; empty without a capture of it.</summary>
    public required ImmutableArray<OfferChange> Changes { get; init; }

    /// <summary>The last explicit contract of the arrangement; null when none was reached.</summary>
    public required ContractAttempt? Contract { get; init; }

    /// <summary>The port.</summary>
    public string Port => Offer.Port;

    /// <summary>The largest power of the last list, in mW.</summary>
    public int Milliwatts => Offer.LargestPowerMilliwatts;

    /// <summary>The largest power that the port ever offered alone; null when that was not captured.</summary>
    public int? AloneMilliwatts => Alone?.MostPowerMilliwatts;

    /// <summary>Mean voltage times largest current as measured under the contract; null when one of them was not.</summary>
    public Power? Measured => Contract?.Measured is { MostCurrent: { } amperes, Mean: { } volts } ? volts * amperes : null;

    /// <summary>Less is offered than alone, beyond the watt that rounding makes (R3.2v1.1, 10.2).</summary>
    public bool IsReduced => AloneMilliwatts is { } alone && alone - Milliwatts > SharingJudgement.RoundingMilliwatts;

    /// <summary>
    /// Another cause than the other ports may explain it: a list before the first contract, a 3 A cable, objects that were not shown,
    /// or what made the port fall back while it was alone.
    /// </summary>
    public bool MayOfferMore => Offer.MayListMore || Offer.HidesObjects || FellBackAlone
        || (Offer.CableMayHideCurrent && Milliwatts == PlainCableMilliwatts && AloneMilliwatts > PlainCableMilliwatts);

    /// <summary>The port fell back while it was alone, to no more than it offers here.</summary>
    public bool FellBackAlone => Alone is { } alone && !ReferenceEquals(alone, Offer)
        && alone.MostPowerMilliwatts - alone.LargestPowerMilliwatts > SharingJudgement.RoundingMilliwatts
        && Milliwatts >= alone.LargestPowerMilliwatts - SharingJudgement.RoundingMilliwatts;

    /// <summary>Rows in the order of the offers.</summary>
    public static ImmutableArray<ArrangementRow> Of(IReadOnlyList<PortOffer> offers, IReadOnlyList<CaptureAnalysis> captures)
    {
        Dictionary<string, PortOffer> alone = [];
        foreach (PortOffer offer in offers.Where(offer => offer.InUse.Length <= 1))
        {
            alone.TryAdd(PortNames.Key(offer.Port), offer);
        }

        ILookup<string, (string Port, ImmutableArray<CapturePiece> Pieces)> byFile =
            captures.ToLookup(static capture => capture.File, static capture => (capture.Port, CapturePieces.Of(capture)));
        return
        [
            .. offers.Select(offer =>
            {
                PortOffer? own = alone.GetValueOrDefault(PortNames.Key(offer.Port));
                ImmutableArray<CapturePiece> pieces = byFile[offer.File].FirstOrDefault(capture => PortNames.Same(capture.Port, offer.Port)).Pieces;
                return new ArrangementRow
                {
                    Offer = offer,
                    Alone = own,
                    Changes = own is null || ReferenceEquals(own, offer) ? [] : OfferChange.Between(own, offer),
                    Contract = pieces.IsDefault ? null : LastContract(pieces, offer.List),
                };
            }),
        ];
    }

    // The last one that was granted from this list while these ports were in use.
    private static ContractAttempt? LastContract(ImmutableArray<CapturePiece> pieces, Advertisement list) =>
        pieces.LastOrDefault(piece => piece.Offered is { } offered && piece.InUse.SequenceEqual(list.InUse)
                && piece.OrderKnown == list.OrderKnown && offered.Objects.AsSpan().SequenceEqual(list.Objects.AsSpan()))
            ?.Contracts.Cast<ContractAttempt?>().LastOrDefault(static contract => contract!.Value.Outcome == ContractOutcome.Ready);
}
