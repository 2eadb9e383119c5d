using Portwitness.Analysis.Phrases;
using Portwitness.Labels;
using Portwitness.PowerDelivery.Units;
using Portwitness.Product.Printed;

namespace Portwitness.Product.Comparison;

/// <summary>The printed rating of a port alone that a claim is about.</summary>
/// <param name="Voltage">Its voltage, or the upper end of its range; null for a power.</param>
/// <param name="Current">Its current; null for a power.</param>
/// <param name="Protocol">The protocol named for it; null when none is.</param>
/// <param name="Text">In words.</param>
internal sealed record PrintedRating(Voltage? Voltage, Current? Current, string? Protocol, Phrase Text)
{
    /// <summary>It is printed as one of USB PD, so that nothing else has to back it.</summary>
    public bool NamesPowerDelivery => Protocol is not null && Protocols.IsPowerDelivery(Protocol);

    /// <summary>The rating; null for claims about anything else.</summary>
    public static PrintedRating? Of(Label label, Claim claim)
    {
        PrintedOutput? output = label.Outputs.FirstOrDefault(one => PortNames.Same(one.Port, claim.Port));
        if (output?.Fixed.FirstOrDefault(mode => claim.Kind == ClaimKind.Fixed && mode.At == claim.At) is { } mode)
        {
            return new(mode.Voltage, mode.Current, mode.Protocol, $"{mode.Voltage} {mode.Current}");
        }

        if (output?.Ranges.FirstOrDefault(range => claim.Kind == ClaimKind.Range && range.At == claim.At) is { } range)
        {
            return new(range.Maximum, range.Current, range.Kind, $"{range.Minimum} to {range.Maximum} {range.Current}");
        }

        return output?.ProtocolMaxima.FirstOrDefault(most => claim.Kind == ClaimKind.Power && most.At == claim.At) is { } most
            ? new(null, null, most.Protocol, $"{most.Power} ({most.Protocol})")
            : null;
    }
}
