using System.Collections.Immutable;
using Portwitness.Analysis;
using Portwitness.Analysis.Bench;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Profile;
using Portwitness.Following.Contracts;
using Portwitness.Labels;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.PowerData;

namespace Portwitness.Product.Arrangements;

/// <summary>Cuts a capture where the arrangement or the offer changes. What comes again as it was goes on with its piece.</summary>
public sealed class CapturePieces
{
    private readonly CaptureAnalysis _capture;
    private readonly List<Draft> _pieces = [];
    private ArrangementSpan _span;
    private Advertisement? _list;
    private ImmutableArray<OfferedObject>? _spr;
    private PiecePeriod _open = new(0, 0, PieceStart.Capture, "");

    private CapturePieces(CaptureAnalysis capture) => (_capture, _span) = (capture, capture.Bench.Spans[0]);

    /// <summary>The pieces in the order in which they begin; at least one.</summary>
    public static ImmutableArray<CapturePiece> Of(CaptureAnalysis capture)
    {
        CapturePieces pieces = new(capture);
        pieces.Cut();
        if (pieces._pieces.Count == 0)
        {
            return [pieces.Uncut()];
        }

        (ContractAttempt Contract, Draft Home)[] contracts = [.. capture.Contracts.Select(contract => (contract, pieces.HomeOf(contract)))];
        return [.. pieces._pieces.Select(piece => pieces.Complete(piece, contracts))];
    }

    // A capture without a list of the port: whatever else was received stands for it.
    private CapturePiece Uncut() => new()
    {
        InUse = _capture.Arrangement,
        OrderKnown = _span.OrderKnown,
        Offered = _capture.Advertisements.LastOrDefault(),
        Periods = [new PiecePeriod(0, _capture.Bench.EndUs, PieceStart.Capture, "")],
        Contracts = _capture.Contracts,
    };

    private void Cut()
    {
        IEnumerable<(long TimeUs, Action Take)> changes = _capture.Bench.Spans.Skip(1).Select(span => (span.FromUs, (Action)(() => OnArrangement(span))))
            .Concat(_capture.Bench.Events.Where(happened => !happened.Attached && PortNames.Same(happened.Port, _capture.Port))
                .Select(happened => (happened.TimeUs, (Action)(() => OnUnplugged(happened)))))
            .Concat(_capture.Advertisements.Where(static list => list.Message.IsSourceList && list.IsOwn)
                .Select(list => (list.TimeUs, (Action)(() => OnList(list)))));
        foreach ((_, Action take) in changes.OrderBy(static change => change.TimeUs))
        {
            take();
        }

        Close(_capture.Bench.EndUs);
    }

    private void OnArrangement(ArrangementSpan span)
    {
        Close(span.FromUs);
        PortEvent? happened = _capture.Bench.Events.FirstOrDefault(one => one.TimeUs == span.FromUs);
        _open = new PiecePeriod(span.FromUs, span.FromUs, happened is { Attached: false } ? PieceStart.Detach : PieceStart.Attach, happened?.Port ?? "");
        _span = span;
    }

    private void OnUnplugged(PortEvent happened)
    {
        Close(happened.TimeUs);
        (_list, _spr) = (null, null);
    }

    // An EPR list begins with the SPR objects (R3.2v1.1, 6.5.15.1): it adds to what is offered. An SPR list that comes once more,
    // as in an answer to Get_Source_Cap, takes nothing away.
    private void OnList(Advertisement list)
    {
        bool isSpr = list.Message == MessageKind.SourceCapabilities;
        ImmutableArray<OfferedObject>? before = isSpr ? _spr : _list?.Message == list.Message ? _list.Objects : null;
        bool isNew = before is { } known ? !known.AsSpan().SequenceEqual(list.Objects.AsSpan()) : _list is null;
        bool isMore = before is null;
        _spr = isSpr ? list.Objects : [.. list.Objects.Take(MessageLimits.MaxSprObjects).Where(static offered => !offered.IsZero)];
        if (isNew)
        {
            Close(list.TimeUs);
            bool isFirst = _pieces.Count == 0;
            _open = new PiecePeriod(list.TimeUs, list.TimeUs, isFirst ? PieceStart.Capture : PieceStart.List, "")
            {
                After = isFirst ? Phrase.Empty : Forewarnings.Before(list.TimeUs, _open.FromUs, _capture.Bench.Forewarnings),
            };
        }

        _list = isNew || isMore ? list : _list;
    }

    private void Close(long untilUs)
    {
        if (_list is null || (untilUs <= _open.FromUs && _open.Start is PieceStart.Attach or PieceStart.Detach))
        {
            return;
        }

        Draft? piece = _pieces.Find(known => known.Span.InUse.SequenceEqual(_span.InUse) && known.Span.OrderKnown == _span.OrderKnown
            && known.Offered.Message == _list.Message && Same(known.Offered, _list));
        if (piece is null)
        {
            _pieces.Add(piece = new Draft(_span, _list));
        }

        piece.Periods.Add(_open with { UntilUs = untilUs });
    }

    private CapturePiece Complete(Draft piece, (ContractAttempt Contract, Draft Home)[] contracts)
    {
        (long, long)[] inUse = [.. Stretches(piece.Span.InUse)];
        return new CapturePiece
        {
            InUse = piece.Span.InUse,
            OrderKnown = piece.Span.OrderKnown,
            Offered = piece.Offered,
            Periods = [.. piece.Periods],
            Contracts =
            [
                .. contracts.Where(one => one.Home == piece || IsCarried(one.Contract, one.Home, piece)).Select(static one => one.Contract)
                    .Select(contract => contract.MeasuredOverTime is not { } slices ? contract : contract with
                    {
                        Measured = slices.Within(inUse) is { } within ? within with { Allowed = contract.Measured?.Allowed } : null,
                    }),
            ],
        };
    }

    // A request belongs to the list that was in force; where none was seen yet, to the first one.
    private Draft HomeOf(ContractAttempt contract) =>
        _pieces.Find(piece => piece.Periods.Exists(period => contract.RequestedUs >= period.FromUs && contract.RequestedUs < period.UntilUs))
        ?? _pieces.FindLast(piece => piece.Offered.MessageIndex < contract.MessageIndex)
        ?? _pieces[0];

    // The same list goes on beside a neighbour that came or went, and so does the contract.
    private static bool IsCarried(ContractAttempt contract, Draft home, Draft piece) => Same(home.Offered, piece.Offered)
        && piece.Periods.Exists(period => period.Start is PieceStart.Attach or PieceStart.Detach && contract.ReadyUs < period.FromUs
            && (contract.EndedUs is null || contract.EndedUs > period.FromUs));

    private IEnumerable<(long FromUs, long UntilUs)> Stretches(ImmutableArray<string> inUse)
    {
        ImmutableArray<ArrangementSpan> spans = _capture.Bench.Spans;
        for (int at = 0; at < spans.Length; at++)
        {
            if (spans[at].InUse.SequenceEqual(inUse))
            {
                yield return (spans[at].FromUs, at + 1 < spans.Length ? spans[at + 1].FromUs : long.MaxValue);
            }
        }
    }

    private static bool Same(Advertisement left, Advertisement right) => left.Objects.AsSpan().SequenceEqual(right.Objects.AsSpan());

    private sealed class Draft(ArrangementSpan span, Advertisement offered)
    {
        public ArrangementSpan Span { get; } = span;

        public Advertisement Offered { get; } = offered;

        public List<PiecePeriod> Periods { get; } = [];
    }
}
