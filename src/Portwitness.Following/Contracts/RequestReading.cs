using System.Collections.Immutable;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.PowerDelivery.Requests;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Following.Contracts;

/// <summary>A request as far as it was shown, read against the list in force (R3.2v1.1, 6.4.2).</summary>
public readonly record struct RequestReading
{
    /// <summary>The word; bits that were not shown are 0.</summary>
    public required uint Raw { get; init; }

    /// <summary>Position of the requested object; null when it was not shown.</summary>
    public int? ObjectPosition { get; private init; }

    /// <summary>The voltage asked for; none for battery and variable objects.</summary>
    public Voltage? Voltage { get; private init; }

    /// <summary>The operating current.</summary>
    public Current? Current { get; private init; }

    /// <summary>The operating power, which only a battery request states.</summary>
    public Power? StatedPower { get; private init; }

    /// <summary>Whether the sink wants more than it asks for.</summary>
    public bool? CapabilityMismatch { get; private init; }

    /// <summary>The stated power, or voltage times current.</summary>
    public Power? Power => StatedPower ?? (Voltage is { } volts && Current is { } amperes ? volts * amperes : null);

    /// <summary>Reads a request.</summary>
    public static RequestReading Of(uint raw, uint known, ImmutableArray<OfferedObject> inForce)
    {
        RequestObject request = new(raw & known);
        RequestReading reading = new() { Raw = request.Raw };
        if (!Shows(known, RequestObject.ObjectPositionBeforeR31Field.Mask))
        {
            return reading;
        }

        reading = reading with
        {
            ObjectPosition = request.ObjectPosition,
            CapabilityMismatch = Shows(known, RequestObject.CapabilityMismatchField.Mask) ? request.CapabilityMismatch : null,
        };
        if (SelectedBy(request, inForce) is not { } selected)
        {
            return reading;
        }

        RequestTerms terms = RequestTerms.Read(request, selected.AsSource());
        (uint voltageBits, uint amountBits) = terms.Shape switch
        {
            RequestShape.Pps => (PpsRequest.VoltageField.Mask, PpsRequest.CurrentField.Mask),
            RequestShape.Avs => (AvsRequest.VoltageField.Mask, PpsRequest.CurrentField.Mask),
            RequestShape.Battery => (0u, BatteryRequest.OperatingField.Mask),
            _ => (0u, FixedVariableRequest.OperatingField.Mask),
        };
        return reading with
        {
            Voltage = selected.Kind == PowerObjectKind.Fixed ? selected.HighestVoltage()
                : Shows(known, voltageBits) ? terms.Voltage : null,
            Current = Shows(known, amountBits) ? terms.Current : null,
            StatedPower = Shows(known, amountBits) ? terms.Power : null,
        };
    }

    /// <summary>The object of the list that a request selects; null when there is none, or its kind was not shown.</summary>
    public static OfferedObject? SelectedBy(RequestObject request, ImmutableArray<OfferedObject> inForce) =>
        request.ObjectPosition >= 1 && request.ObjectPosition <= inForce.Length && inForce[request.ObjectPosition - 1].KindIsKnown
            ? inForce[request.ObjectPosition - 1]
            : null;

    private static bool Shows(uint known, uint bits) => (known & bits) == bits;
}
