using System.Collections.Immutable;
using Portwitness.Analysis.Evidence;
using Portwitness.Negotiation;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.PowerData;

using Wire = Portwitness.Contracts.V1;

namespace Portwitness.Service.Translation;

/// <summary>Negotiations of devices with what a port offers.</summary>
internal static class NegotiationTranslation
{
    public static Wire.NegotiatedOffer ToContract(this SourceOffer offer, IEnumerable<SinkNegotiation> negotiations)
    {
        Wire.NegotiatedOffer translated = new() { Port = offer.Port };
        translated.InUse.AddRange(offer.InUse);
        translated.Objects.AddRange(offer.Spr.Select(static one => one.ToContract(MessageKind.SourceCapabilities)));
        translated.EprObjects.AddRange(offer.Epr.Select(static one => one.ToContract(MessageKind.EPRSourceCapabilities)));
        if (offer.MessageIndex is { } index)
        {
            translated.MessageIndex = index;
        }

        translated.Curves.AddRange(offer.Spr.Concat(offer.Epr).DistinctBy(static one => one.Position)
            .Where(one => !offer.CurveOf(one).Segments.IsEmpty).Select(one => ToContract(one, offer)));
        translated.Negotiations.AddRange(negotiations.Select(ToContract));
        return translated;
    }

    public static Wire.DeviceMatrix ToContract(this DeviceMatrix matrix)
    {
        Wire.DeviceMatrix translated = new() { Policy = matrix.Policy.ToContract(), Unlisted = matrix.Unlisted };
        translated.Sinks.AddRange(ShippedSinks.All.Select(SinkTranslation.ToContract));
        foreach (DeviceRow row in matrix.Rows)
        {
            Wire.DeviceMatrixRow cells = new() { Port = row.Offer.Port, File = row.Offer.File };
            cells.InUse.AddRange(row.Offer.InUse);
            if (row.Offer.MessageIndex is { } index)
            {
                cells.MessageIndex = index;
            }

            cells.Cells.AddRange(row.Devices.Select(ToCell));
            translated.Rows.Add(cells);
        }

        return translated;
    }

    private static Wire.DeviceMatrixCell ToCell(SinkNegotiation negotiation)
    {
        Wire.DeviceMatrixCell cell = new()
        {
            Sink = negotiation.Sink.Name,
            StartPowerMw = negotiation.Start?.Terms.Power.Milliwatts ?? 0,
            PowerMw = negotiation.Power.Milliwatts,
            CapabilityMismatch = negotiation.CapabilityMismatch,
            GetsWish = ((Verdict?)negotiation.GetsWish).ToContract(),
            GetsMinimum = ((Verdict?)negotiation.GetsMinimum).ToContract(),
        };
        if (negotiation.Best?.Terms is { } terms)
        {
            cell.ObjectPosition = terms.Offered.Position;
            cell.VoltageMv = terms.Voltage.Millivolts;
        }

        return cell;
    }

    private static Wire.SupplyCurve ToContract(OfferedObject offered, SourceOffer offer)
    {
        SupplyCurve curve = offer.CurveOf(offered);
        Wire.SupplyCurve translated = new() { ObjectPosition = offered.Position, StepMv = curve.Step.Millivolts };
        if (curve.IsPowerLimited)
        {
            translated.PowerLimitMw = offer.PowerLimit.Milliwatts;
        }

        translated.Parts.AddRange(ToContract(curve.Segments));
        return translated;
    }

    private static IEnumerable<Wire.CurvePart> ToContract(ImmutableArray<CurveSegment> segments) => segments.Select(static part => new Wire.CurvePart
    {
        FromMv = part.From.Millivolts,
        ToMv = part.To.Millivolts,
        CurrentMa = part.Limit.Milliamperes,
        FromPowerMw = (part.From * part.Limit).Milliwatts,
        ToPowerMw = (part.To * part.Limit).Milliwatts,
    });

    private static Wire.Negotiation ToContract(SinkNegotiation negotiation)
    {
        Wire.Negotiation translated = new()
        {
            Sink = negotiation.Sink.Name,
            Start = negotiation.Start is { } start ? ToContract(start) : null,
            Best = negotiation.Best is { } best ? ToContract(best) : null,
            CapabilityMismatch = negotiation.CapabilityMismatch,
            GetsWish = ((Verdict?)negotiation.GetsWish).ToContract(),
            GetsMinimum = ((Verdict?)negotiation.GetsMinimum).ToContract(),
        };
        translated.Objects.AddRange(negotiation.Uses.Select(ToContract));
        translated.NextSteps.AddRange(negotiation.NextSteps);
        return translated;
    }

    private static Wire.DeviceRequest ToContract(DeviceRequest request)
    {
        Wire.DeviceRequest translated = new()
        {
            Message = request.Message.Name,
            Raw = request.Request.Raw,
            RawHex = $"0x{request.Request.Raw:X8}",
            ObjectPosition = request.Terms.Offered.Position,
            VoltageMv = request.Terms.Voltage.Millivolts,
            PowerMw = request.Terms.Power.Milliwatts,
            LimitedBy = request.Terms.LimitedBy switch
            {
                RequestLimit.Wish => "wish",
                RequestLimit.Cable => "cable",
                RequestLimit.Device => "device",
                _ => "offer",
            },
        };
        if (request.Terms.Current is { } current && request.Terms.Kind != PowerObjectKind.Battery)
        {
            translated.CurrentMa = current.Milliamperes;
        }

        return translated;
    }

    private static Wire.ObjectUse ToContract(OfferUse use)
    {
        Wire.ObjectUse translated = new()
        {
            ObjectPosition = use.Offered.Position,
            Outcome = Word(use.Outcome),
            Why = use.Why,
            Better = use.IsBetter,
        };
        if (use.Most is { } most)
        {
            translated.OfferedPowerMw = most.Milliwatts;
        }

        if (use.Possible is { } possible)
        {
            translated.UsablePowerMw = possible.Power.Milliwatts;
        }

        translated.Curve.AddRange(ToContract(use.Curve));
        return translated;
    }

    private static string Word(OfferOutcome outcome) => outcome switch
    {
        OfferOutcome.Chosen => "chosen",
        OfferOutcome.LessPower => "less-power",
        OfferOutcome.Policy => "policy",
        OfferOutcome.Voltage => "voltage",
        OfferOutcome.Range => "range",
        OfferOutcome.Current => "current",
        OfferOutcome.Kind => "kind",
        OfferOutcome.Edition => "edition",
        OfferOutcome.Cable => "cable",
        OfferOutcome.Mode => "mode",
        OfferOutcome.NotShown => "not-shown",
        _ => "no-supply",
    };
}
