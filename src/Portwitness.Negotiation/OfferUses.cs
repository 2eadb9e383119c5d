using System.Collections.Immutable;
using Portwitness.Analysis.Phrases;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Negotiation;

/// <summary>Finds what a device could ask for of the objects of a source, one by one.</summary>
/// <param name="offer">The lists.</param>
/// <param name="sink">The device.</param>
/// <param name="noEpr">Why EPR mode is not entered; null when it is.</param>
internal sealed class OfferUses(SourceOffer offer, SinkDescription sink, (OfferOutcome Outcome, string Why)? noEpr)
{
    /// <summary>The use of an object; <see cref="OfferOutcome.LessPower"/> stands for one that it has, whatever is chosen.</summary>
    public OfferUse Find(OfferedObject offered)
    {
        Power? most = Most(offered);
        (OfferOutcome Outcome, string Why)? excluded = WhyNot(offered, most);
        SinkRequest? possible = excluded is not null ? null : offered.Kind switch
        {
            PowerObjectKind.Fixed => OfFixed(offered),
            PowerObjectKind.Variable => OfVariable(offered),
            PowerObjectKind.Battery => OfBattery(offered, most!.Value),
            _ => OfAdjustable(offered),
        };
        (OfferOutcome outcome, string why) = excluded ?? (possible is null ? NotTaken(offered) : (OfferOutcome.LessPower, ""));
        return new OfferUse(offered, possible, outcome, why) { Most = most, Curve = excluded is null ? CurveOf(offered) : [] };
    }

    /// <summary>What limits a request, in words.</summary>
    public string Limit(SinkRequest request) => request.LimitedBy switch
    {
        RequestLimit.Wish => "all that the device wants",
        RequestLimit.Cable => $"the device's cable carries {sink.CableMaximum}",
        RequestLimit.Device when request.Current is { } current => $"the device draws at most {current} there",
        RequestLimit.Device => "the device draws no more there",
        _ => "all that the object offers",
    };

    private (OfferOutcome Outcome, string Why)? WhyNot(OfferedObject offered, Power? most)
    {
        if (offered.IsZero || offered.Is(PowerObjectKind.Reserved) || offered.Position > MessageLimits.LastCodableObjectPosition)
        {
            return (OfferOutcome.NoSupply, offered.IsZero ? "padding" : "nothing that can be asked for");
        }

        if (!offered.KindIsKnown || offered.HighestVoltage() is null || offered.LowestVoltage() is null || most is null)
        {
            return (OfferOutcome.NotShown, "the capture does not show enough of it");
        }

        if (KnownSince(offered.Kind) > sink.Edition)
        {
            return (OfferOutcome.Edition, $"a device of {sink.Edition.ToText()} does not know {offered.Kind.ToText()}");
        }

        bool isEprOnly = offered.Position >= MessageLimits.FirstEprPosition || offered.Kind == PowerObjectKind.EprAvs;
        return isEprOnly && noEpr is not null ? noEpr
            : most == Power.Zero ? (OfferOutcome.NoSupply, "it offers no power")
            : null;
    }

    private (OfferOutcome Outcome, string Why) NotTaken(OfferedObject offered) => offered.Kind switch
    {
        PowerObjectKind.Fixed => (OfferOutcome.Voltage, $"the device does not take {offered.HighestVoltage()}"),
        PowerObjectKind.Variable or PowerObjectKind.Battery => sink.Variable.IsEmpty
            ? (OfferOutcome.Kind, $"the device does not use {offered.Kind.ToText()} supplies")
            : (OfferOutcome.Range, $"the device does not take every voltage of {offered.VoltageText()}"),
        _ => RangesFor(offered.Kind).IsEmpty
            ? (OfferOutcome.Kind, $"the device does not use {(offered.Kind == PowerObjectKind.Pps ? "PPS" : "AVS")}")
            : !Meetings(offered).Any()
            ? (OfferOutcome.Range, $"the device's range does not meet {offered.VoltageText()}")
            : (OfferOutcome.Current, offered.Kind == PowerObjectKind.Pps
                ? "a PPS request is for 1 A or more (R3.2v1.1, 7.1.4.2.2), which is not offered or not wanted"
                : "less than the smallest step of current is left"),
    };

    private SinkRequest? OfFixed(OfferedObject offered)
    {
        Voltage voltage = offered.HighestVoltage()!.Value;
        SinkIntake? intake = sink.Fixed.FirstOrDefault(one => one.Minimum == voltage);
        return intake is null ? null : Limited(offered, voltage, offered.MaximumCurrent()!.Value, intake, SinkRequest.FixedCurrentStep);
    }

    private SinkRequest? OfVariable(OfferedObject offered) => Around(offered) is { } intake
        ? Limited(offered, offered.LowestVoltage()!.Value, offered.MaximumCurrent()!.Value, intake, SinkRequest.FixedCurrentStep)
        : null;

    private SinkRequest? OfBattery(OfferedObject offered, Power most)
    {
        Voltage low = offered.LowestVoltage()!.Value;
        if (Around(offered) is not { } intake || low == Voltage.Zero)
        {
            return null;
        }

        int device = Math.Min(CurrentOf(intake), sink.CableMaximum.Milliamperes);
        (int least, RequestLimit by) = new[]
        {
            (most.Milliwatts, RequestLimit.Offer),
            ((int)((long)low.Millivolts * device / 1000), device < CurrentOf(intake) ? RequestLimit.Cable : RequestLimit.Device),
            (sink.Wish.Milliwatts, RequestLimit.Wish),
        }.MinBy(static one => one.Item1);
        return ByWish(new SinkRequest(
            offered, low, null, Power.FromMilliwatts(least / SinkRequest.PowerStep * SinkRequest.PowerStep), by));
    }

    // Each part of the curve with each range of the device; of these the most power, then the lowest voltage.
    private SinkRequest? OfAdjustable(OfferedObject offered) =>
        SinkPolicy.MostPower.Choose(Meetings(offered).Select(meeting => OfMeeting(offered, meeting)).OfType<SinkRequest>(), sink);

    // Where a part of the source's curve and a range of the device meet, with the current that both and the cable allow.
    private IEnumerable<(CurveSegment Part, Current Limit, SinkIntake Range)> Meetings(OfferedObject offered)
    {
        SupplyCurve curve = offer.CurveOf(offered);
        int step = curve.Step.Millivolts;
        foreach (SinkIntake range in RangesFor(offered.Kind))
        {
            foreach (CurveSegment part in curve.Segments)
            {
                int low = Math.Max(part.From.Millivolts, (range.Minimum.Millivolts + step - 1) / step * step);
                int high = Math.Min(part.To.Millivolts, range.Maximum.Millivolts / step * step);
                if (low <= high)
                {
                    int most = Math.Min(Math.Min(part.Limit.Milliamperes, CurrentOf(range)), sink.CableMaximum.Milliamperes);
                    most = most / SinkRequest.AdjustableCurrentStep * SinkRequest.AdjustableCurrentStep;
                    yield return (
                        new CurveSegment(Voltage.FromMillivolts(low), Voltage.FromMillivolts(high), Current.FromMilliamperes(most)),
                        part.Limit, range);
                }
            }
        }
    }

    private ImmutableArray<CurveSegment> CurveOf(OfferedObject offered)
    {
        List<CurveSegment> curve = [];
        int step = offer.CurveOf(offered).Step.Millivolts;
        foreach (CurveSegment part in Meetings(offered).Select(static meeting => meeting.Part).Where(static part => part.Limit > Current.Zero))
        {
            if (curve.Count > 0 && curve[^1].Limit == part.Limit && curve[^1].To.Millivolts + step == part.From.Millivolts)
            {
                curve[^1] = curve[^1] with { To = part.To };
            }
            else
            {
                curve.Add(part);
            }
        }

        return [.. curve];
    }

    // The whole current at the voltage that makes up the wish; where the lowest voltage makes up more, less current there.
    private SinkRequest? OfMeeting(OfferedObject offered, (CurveSegment Part, Current Limit, SinkIntake Range) meeting)
    {
        if (meeting.Part.Limit == Current.Zero)
        {
            return null;
        }

        int step = offer.CurveOf(offered).Step.Millivolts;
        long wished = sink.Wish.Milliwatts * 1000L / meeting.Part.Limit.Milliamperes / step * step;
        int voltage = (int)Math.Clamp(wished, meeting.Part.From.Millivolts, meeting.Part.To.Millivolts);
        SinkRequest? request = Limited(
            offered, Voltage.FromMillivolts(voltage), meeting.Limit, meeting.Range, SinkRequest.AdjustableCurrentStep);

        // A source should reject less, or limits at that (R3.2v1.1, 7.1.4.2.2).
        return request?.Kind == PowerObjectKind.Pps && request.Current < Electrical.PpsCurrentLimitMinimum ? null : request;
    }

    private SinkRequest? Limited(OfferedObject offered, Voltage voltage, Current limit, SinkIntake intake, int step)
    {
        if (voltage == Voltage.Zero)
        {
            return null;
        }

        (int least, RequestLimit by) = new[]
        {
            (limit.Milliamperes, RequestLimit.Offer), (CurrentOf(intake), RequestLimit.Device),
            (sink.CableMaximum.Milliamperes, RequestLimit.Cable),
            ((int)Math.Min(sink.Wish.Milliwatts * 1000L / voltage.Millivolts, int.MaxValue), RequestLimit.Wish),
        }.MinBy(static one => one.Item1);
        Current current = Current.FromMilliamperes(least / step * step);
        return ByWish(new SinkRequest(offered, voltage, current, voltage * current, by));
    }

    private SinkRequest ByWish(SinkRequest request) =>
        request.Reaches(sink.Wish) ? request with { LimitedBy = RequestLimit.Wish } : request;

    // A variable or battery supply may have any voltage of its range.
    private SinkIntake? Around(OfferedObject offered) => sink.Variable.FirstOrDefault(one =>
        one.Minimum <= offered.LowestVoltage() && one.Maximum >= offered.HighestVoltage());

    private ImmutableArray<SinkIntake> RangesFor(PowerObjectKind kind) => kind == PowerObjectKind.Pps ? sink.Pps : sink.Avs;

    private Power? Most(OfferedObject offered) => offered switch
    {
        { KindIsKnown: false } or { Kind: PowerObjectKind.Reserved } or { IsZero: true } => null,
        { Kind: PowerObjectKind.Battery } => offered.Knows(BatterySourceSupply.PowerField) ? offered.AsSource().AsBattery().MaximumPower : null,
        { Kind: PowerObjectKind.Fixed } => offered.HighestVoltage() * offered.MaximumCurrent(),
        { Kind: PowerObjectKind.Variable } => offered.LowestVoltage() * offered.MaximumCurrent(),
        { Kind: PowerObjectKind.EprAvs } when !offered.Knows(EprAvsSourceSupply.PdpField) => null,
        { Kind: not PowerObjectKind.EprAvs } when offered.MaximumCurrent() is null => null,
        _ => offer.CurveOf(offered).Segments.Select(static part => (Power?)(part.To * part.Limit)).Max() ?? Power.Zero,
    };

    private static int CurrentOf(SinkIntake intake) => intake.Most?.Milliamperes ?? int.MaxValue;

    private static Editions KnownSince(PowerObjectKind kind) => kind switch
    {
        PowerObjectKind.Pps => Editions.R30,
        PowerObjectKind.EprAvs => Editions.R31,
        PowerObjectKind.SprAvs => Editions.R32,
        _ => Editions.R20,
    };
}
