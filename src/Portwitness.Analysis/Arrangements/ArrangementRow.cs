using System.Collections.Immutable;
using Portwitness.Analysis.Comparison;
using Portwitness.Analysis.Conversation;
using Portwitness.Analysis.Profile;
using Portwitness.Labels;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Analysis.Arrangements;

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

    /// <summary>The largest power that is offered, in mW.</summary>
    public int Milliwatts => Offer.LargestPowerMilliwatts;

    /// <summary>The same of the port alone; null when that was not captured.</summary>
    public int? AloneMilliwatts => Alone?.LargestPowerMilliwatts;

    /// <summary>Mean voltage times largest current as measured under the contract; null when one of them was not.</summary>
    public Power? Measured => Contract?.Measured is { MostCurrent: { } amperes, Mean: { } volts } ? volts * amperes : null;

    /// <summary>Less is offered than alone, beyond the watt that rounding makes (R3.2v1.1, 10.2).</summary>
    public bool IsReduced => AloneMilliwatts is { } alone && alone - Milliwatts > SharingJudgement.RoundingMilliwatts;

    /// <summary>
    /// Another cause than the other ports may explain it: a list before the first contract, a 3 A cable, objects that were not shown.
    /// </summary>
    public bool MayOfferMore => Offer.MayListMore || Offer.HidesObjects
        || (Offer.CableMayHideCurrent && Milliwatts == PlainCableMilliwatts && AloneMilliwatts > PlainCableMilliwatts);

    /// <summary>Rows in the order of the offers.</summary>
    public static ImmutableArray<ArrangementRow> Of(IReadOnlyList<PortOffer> offers, IReadOnlyList<CaptureAnalysis> captures)
    {
        Dictionary<string, PortOffer> alone = [];
        foreach (PortOffer offer in offers.Where(offer => offer.InUse.Length <= 1))
        {
            alone.TryAdd(PortNames.Key(offer.Port), offer);
        }

        ILookup<string, CaptureAnalysis> byFile = captures.ToLookup(capture => capture.File);
        return
        [
            .. offers.Select(offer =>
            {
                PortOffer? own = alone.GetValueOrDefault(PortNames.Key(offer.Port));
                CaptureAnalysis? capture = byFile[offer.File].FirstOrDefault(capture => PortNames.Same(capture.Port, offer.Port));
                return new ArrangementRow
                {
                    Offer = offer,
                    Alone = own,
                    Changes = own is null || ReferenceEquals(own, offer) ? [] : OfferChange.Between(own, offer),
                    Contract = capture is null ? null : LastContract(capture, offer.List.InUse),
                };
            }),
        ];
    }

    // The one that was in force last while these ports were in use.
    private static ContractAttempt? LastContract(CaptureAnalysis capture, ImmutableArray<string> inUse)
    {
        ContractAttempt? last = null;
        ImmutableArray<ArrangementSpan> spans = capture.Bench.Spans;
        for (int at = 0; at < spans.Length; at++)
        {
            long endUs = at + 1 < spans.Length ? spans[at + 1].FromUs : long.MaxValue;
            if (spans[at].InUse.SequenceEqual(inUse))
            {
                last = capture.Contracts.LastOrDefault(contract => contract.Outcome == ContractOutcome.Ready
                    && contract.ReadyUs < endUs && (contract.EndedUs is null || contract.EndedUs > spans[at].FromUs)) ?? last;
            }
        }

        return last;
    }
}
