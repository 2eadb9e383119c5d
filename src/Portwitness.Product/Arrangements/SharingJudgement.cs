using System.Collections.Immutable;
using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.PdpRules;
using Portwitness.Analysis.Phrases;
using Portwitness.Labels;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.Product.Offers;

namespace Portwitness.Product.Arrangements;

/// <summary>
/// Tells from the offers how a product shares its power. What needs both attach orders is not told from one, and what a cable or a
/// list before the first contract may explain is not told at all.
/// </summary>
internal sealed class SharingJudgement(OfferGroups groups, ImmutableArray<ArrangementRow> rows)
{
    /// <summary>Powers that differ by so much are the same: rounding V and A makes less than a watt (R3.2v1.1, 10.2).</summary>
    public const int RoundingMilliwatts = 1_000;

    private const int PoolMillivolts = 5_500;

    private readonly Dictionary<PortOffer, ArrangementRow> _rows = ByOffer(rows);

    /// <summary>The policy of a product with these ports.</summary>
    public SharingPolicy Judge(IReadOnlyList<string> ports)
    {
        SharingPolicy[] sets = [.. groups.Sets.Where(set => set[0].InUse.Length > 1).Select(OfSet)];
        if (sets.Length == 0)
        {
            return CannotTell("no capture has several ports in use", "", NextSteps.CaptureInOrder([.. ports.Take(2)]));
        }

        SharingPolicy[] open = [.. sets.Where(set => set.Verdict == Verdict.CannotTell)];
        SharingPolicy[] settled = [.. sets.Where(set => set.Verdict == Verdict.Holds)];
        Phrase evidence = Phrase.Join("; ", sets.Select(static set => set.Evidence).Where(static text => !text.IsEmpty));
        if (settled.Length == 0)
        {
            return open[0] with { Evidence = evidence };
        }

        // Ports that fit into what there is are not reduced, whatever the policy.
        SharingPolicy[] sharing = [.. settled.Where(set => set.Kind != SharingKind.NoSharing)];
        SharingKind[] kinds = [.. (sharing.Length > 0 ? sharing : settled).Select(set => set.Kind).Distinct()];
        Phrase sentence = Phrase.Join(" ", settled.Concat(open.Take(1)).Select(set => set.Sentence));
        return new SharingPolicy(
            kinds.Length == 1 ? kinds[0] : SharingKind.Mixed, sentence, evidence,
            open.Length == 0 ? Verdict.Holds : Verdict.CannotTell, open.Length == 0 ? "" : open[0].NextStep);
    }

    private SharingPolicy OfSet(IReadOnlyList<OfferGroup> orders)
    {
        ImmutableArray<string> inUse = orders[0].InUse;
        string[] ports = [.. inUse.Where(port => rows.Any(row => PortNames.Same(row.Port, port))).Order(StringComparer.Ordinal)];
        OfferGroup[] whole = [.. orders.Where(order => ports.All(port => order.OfferOf(port) is not null))];
        string together = string.Join("+", inUse.Order(StringComparer.Ordinal));
        Phrase evidence = Phrase.Join("; ", ports.Select(Alone).Concat(orders.Select(Text)));
        if (whole.Length == 0)
        {
            return CannotTell($"the ports of {together} were not all captured in one attach order", evidence, NextSteps.CaptureInOrder(inUse));
        }

        if (Array.Find(ports, port => RowOf(whole[0], port).Alone is null) is { } missing)
        {
            return CannotTell($"{missing} alone was not captured", evidence, NextSteps.Capture(missing, [missing]));
        }

        ArrangementRow[] all = [.. whole.SelectMany(order => ports.Select(port => RowOf(order, port)))];
        if (Array.Find(all, row => row.MayOfferMore && row.IsReduced) is { } doubtful)
        {
            return CannotTell(
                $"{doubtful.Port} of {together} may offer more than was captured", evidence,
                doubtful.FellBackAlone ? NextSteps.OneClock
                    : doubtful.Offer.MayListMore ? doubtful.Offer.ContractStep
                    : doubtful.Offer.HidesObjects ? doubtful.Offer.WholeListStep : doubtful.Offer.CableStep);
        }

        if (!Array.Exists(all, row => row.IsReduced))
        {
            return Settled(SharingKind.NoSharing, $"No sharing with {together} in use: every port offers what it offers alone.", evidence);
        }

        if (all.All(row => IsPooled(row.Offer)) && all.Any(row => !IsPooled(row.Alone!)))
        {
            return Settled(SharingKind.FiveVoltPool, $"5 V pool: with {together} in use all ports fall back to 5 V.", evidence);
        }

        return whole.Length > 1 && whole.All(order => order.OrderKnown)
            ? ByOrder(ports, whole, together, evidence)
            : CannotTell(
                $"{together} shares, and it may be a fixed split or go by the attach order: only one order was captured", evidence,
                NextSteps.CaptureInOrder(whole[0].OrderKnown ? [inUse[^1], .. inUse.Take(inUse.Length - 1)] : inUse));
    }

    private SharingPolicy ByOrder(string[] ports, OfferGroup[] orders, string together, Phrase evidence)
    {
        List<int> signs = [.. ports.SelectMany(port => SignsOf(port, orders))];
        if (signs.Count > 0)
        {
            Phrase each = Phrase.Join("; ", orders.Select(order =>
                Phrase.Of($"{order.Text}: {Phrase.Join(", ", ports.Select(port => Phrase.Of($"{port} {PowerRules.Watts(RowOf(order, port).Milliwatts)}")))}")));
            return signs.TrueForAll(sign => sign >= 0) && signs.Contains(1)
                ? Settled(SharingKind.FirstAttachedFirst, $"Priority by attach order with {together} in use: what is attached first is offered more ({each}).", evidence)
                : signs.TrueForAll(sign => sign <= 0) && signs.Contains(-1)
                    ? Settled(SharingKind.LastAttachedFirst, $"Priority by attach order with {together} in use: what is attached last is offered more ({each}).", evidence)
                    : Settled(SharingKind.ByAttachOrder, $"The attach order decides with {together} in use, in no regular way ({each}).", evidence);
        }

        ArrangementRow[] shares = [.. ports.Select(port => RowOf(orders[0], port))];
        int[] reduced = [.. shares.Where(row => row.IsReduced).Select(row => row.Milliwatts)];
        bool isEqual = reduced.Length > 1 && reduced.Max() - reduced.Min() <= RoundingMilliwatts
            && shares.All(row => row.Milliwatts <= reduced.Max() + RoundingMilliwatts);
        Phrase powers = Phrase.Join(", ", shares.Select(static row => Phrase.Of($"{row.Port} {PowerRules.Watts(row.Milliwatts)}")));
        return isEqual
            ? Settled(SharingKind.EqualSplit, $"Equal split with {together} in use, whichever is attached first: {powers}.", evidence)
            : Settled(SharingKind.FixedSplit, $"Fixed split with {together} in use, whichever is attached first: {powers}.", evidence);
    }

    // Wherever a port is offered another power: whether attached later it is offered less (1) or more (-1), or its place is the same (0).
    private IEnumerable<int> SignsOf(string port, OfferGroup[] orders)
    {
        foreach (OfferGroup first in orders)
        {
            foreach (OfferGroup second in orders)
            {
                int moved = Position(second, port) - Position(first, port);
                int lost = RowOf(first, port).Milliwatts - RowOf(second, port).Milliwatts;
                if (Math.Abs(lost) > RoundingMilliwatts && moved >= 0)
                {
                    yield return moved == 0 ? 0 : Math.Sign(lost);
                }
            }
        }
    }

    private static Dictionary<PortOffer, ArrangementRow> ByOffer(ImmutableArray<ArrangementRow> rows)
    {
        Dictionary<PortOffer, ArrangementRow> byOffer = new((IEqualityComparer<PortOffer>)ReferenceEqualityComparer.Instance);
        foreach (ArrangementRow row in rows)
        {
            byOffer.Add(row.Offer, row);
        }

        return byOffer;
    }

    private static int Position(OfferGroup group, string port) => group.InUse.TakeWhile(used => !PortNames.Same(used, port)).Count();

    private static bool IsPooled(PortOffer offer) =>
        offer.List.Objects.All(offered => offered.HighestVoltage() is not { } volts || volts.Millivolts <= PoolMillivolts);

    private ArrangementRow RowOf(OfferGroup order, string port) => _rows[order.OfferOf(port)!];

    private Phrase Alone(string port)
    {
        ArrangementRow? row = rows.FirstOrDefault(row => row.Offer.InUse.Length <= 1 && PortNames.Same(row.Port, port));
        return row is null ? Phrase.Of($"{port} alone not captured") : $"{port} alone {OfferHistory.PowerText(row.Offer)} ({row.Offer.Place})";
    }

    private static Phrase Text(OfferGroup group) =>
        $"{group.Text}: {Phrase.Join(", ", group.Offers.Select(static offer => Phrase.Of($"{offer.Port} {OfferHistory.PowerText(offer)} ({offer.Place})")))}";

    private static SharingPolicy Settled(SharingKind kind, Phrase sentence, Phrase evidence) => new(kind, sentence, evidence, Verdict.Holds, "");

    private static SharingPolicy CannotTell(Phrase why, Phrase evidence, Phrase nextStep) =>
        new(SharingKind.Unknown, $"How power is shared cannot be told: {why}.", evidence, Verdict.CannotTell, nextStep);
}
