using Portwitness.Contracts.V1;

namespace Portwitness.Reports.Text;

/// <summary>One device at one port: what it asks for, what it makes of each object, and its curves.</summary>
internal static class DeviceText
{
    private const string Indent = "    ";

    public static void Write(
        TextWriter writer, NegotiatedOffer offer, Negotiation negotiation, Sink sink, IReadOnlyList<PowerObject> objects, TextStyle style)
    {
        writer.WriteLine($"  {style.Heading(VisibleText.Of(negotiation.Sink))}");
        Paragraph.Write(writer, style, Indent, "at start", Request(negotiation.Start, objects));
        Paragraph.Write(writer, style, Indent, "at best", Request(negotiation.Best, objects));
        writer.WriteLine($"{Indent}{"wish",-10}{Amounts.Watts(sink.WishMw)}: {style.Verdict(negotiation.GetsWish)}{Mismatch(negotiation)}");
        if (sink.HasMinimumMw)
        {
            writer.WriteLine($"{Indent}{"minimum",-10}{Amounts.Watts(sink.MinimumMw)}: {style.Verdict(negotiation.GetsMinimum)}");
        }

        TextTable table = new();
        table.Add("", "object", "offers", "usable", "outcome", "because");
        foreach (ObjectUse use in negotiation.Objects.Where(use => !IsPadding(use, objects)))
        {
            table.Add(
                use.Better ? "+" : "", Amounts.Number(use.ObjectPosition),
                use.HasOfferedPowerMw ? Amounts.Watts(use.OfferedPowerMw) : Amounts.Unknown,
                use.HasUsablePowerMw ? Amounts.Watts(use.UsablePowerMw) : "-",
                use.Outcome.Replace('-', ' '), use.Why);
        }

        table.Write(writer, Indent);
        if (negotiation.Objects.Any(static use => use.Better))
        {
            writer.WriteLine($"{Indent}+ offers more power than the device comes to");
        }

        foreach (ObjectUse use in negotiation.Objects.Where(static use => use.Curve.Count > 0))
        {
            if (offer.Curves.FirstOrDefault(curve => curve.ObjectPosition == use.ObjectPosition) is { } curve)
            {
                CurveText.Write(writer, curve, use.Curve, Indent);
            }
        }
    }

    private static bool IsPadding(ObjectUse use, IReadOnlyList<PowerObject> objects) =>
        objects.Any(offered => offered.Position == use.ObjectPosition && offered.KindCase == PowerObject.KindOneofCase.Padding);

    private static string Mismatch(Negotiation negotiation) =>
        negotiation.CapabilityMismatch ? "; nothing offered reaches it, so that requests say Capability Mismatch" : "";

    private static string Request(DeviceRequest? request, IReadOnlyList<PowerObject> objects)
    {
        if (request is null)
        {
            return "nothing: no object that the device can use";
        }

        string kind = objects.FirstOrDefault(one => one.Position == request.ObjectPosition) is { } offered ? PowerObjectRow.Of(offered)[2] : "";
        string current = request.HasCurrentMa ? $" {Amounts.Amperes(request.CurrentMa)}" : "";
        return $"object {request.ObjectPosition}, {kind} {Amounts.Volts(request.VoltageMv)}{current}, {Amounts.Watts(request.PowerMw)}"
            + $" ({request.Message} {request.RawHex})";
    }
}
