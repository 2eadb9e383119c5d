using Portwitness.PowerDelivery.PowerData;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.PowerDelivery.Requests;

/// <summary>What a request asks for, read against the object that it selects (R3.2v1.1, 6.4.2).</summary>
/// <param name="Shape">How the request was read.</param>
/// <param name="Voltage">The fixed, or the requested, voltage; null where the object leaves a range or is unknown.</param>
/// <param name="Current">Operating current; null for battery and unknown objects.</param>
/// <param name="Power">Operating power; battery objects only.</param>
public readonly record struct RequestTerms(RequestShape Shape, Voltage? Voltage, Current? Current, Power? Power)
{
    /// <summary>Reads a request; finding the selected object, and judging the request, is the caller's business.</summary>
    public static RequestTerms Read(RequestObject request, SourcePowerObject selected)
    {
        RequestShape shape = RequestObject.ShapeFor(selected.Kind);
        return shape switch
        {
            RequestShape.FixedVariable => new(
                shape,
                selected.Kind == PowerObjectKind.Fixed ? selected.AsFixed().Voltage : null,
                request.AsFixedVariable().OperatingCurrent,
                null),
            RequestShape.Battery => new(shape, null, null, request.AsBattery().OperatingPower),
            RequestShape.Pps => new(shape, request.AsPps().OutputVoltage, request.AsPps().OperatingCurrent, null),
            RequestShape.Avs => new(shape, request.AsAvs().OutputVoltage, request.AsAvs().OperatingCurrent, null),
            _ => new(shape, null, null, null),
        };
    }
}
