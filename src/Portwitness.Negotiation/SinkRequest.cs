using Portwitness.PowerDelivery.PowerData;
using Portwitness.PowerDelivery.Requests;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Negotiation;

/// <summary>What keeps a device from drawing more of an object.</summary>
public enum RequestLimit
{
    /// <summary>The object offers no more.</summary>
    Offer,

    /// <summary>The device draws no more at that voltage.</summary>
    Device,

    /// <summary>The cable carries no more.</summary>
    Cable,

    /// <summary>The device wants no more.</summary>
    Wish,
}

/// <summary>What a device could ask for of one object.</summary>
/// <param name="Offered">The object.</param>
/// <param name="Voltage">The voltage; of a variable or battery supply the lowest that it may have.</param>
/// <param name="Current">The current; null for a battery supply, of which power is asked.</param>
/// <param name="Power">The power; of a variable supply at its lowest voltage.</param>
/// <param name="LimitedBy">Why it is not more.</param>
public sealed record SinkRequest(OfferedObject Offered, Voltage Voltage, Current? Current, Power Power, RequestLimit LimitedBy)
{
    /// <summary>Steps of current in requests of fixed and variable supplies, in mA (R3.2v1.1, Table 6.23).</summary>
    public const int FixedCurrentStep = 10;

    /// <summary>Steps of current in requests of PPS and AVS, in mA (R3.2v1.1, Tables 6.25 and 6.26).</summary>
    public const int AdjustableCurrentStep = 50;

    /// <summary>Steps of power in requests of battery supplies, in mW (R3.2v1.1, Table 6.24).</summary>
    public const int PowerStep = 250;

    /// <summary>The kind of the object.</summary>
    public PowerObjectKind Kind => Offered.Kind;

    /// <summary>By how much the power changes with the smallest step of current or power that can be asked for, in mW.</summary>
    public int Grain => Kind switch
    {
        PowerObjectKind.Battery => PowerStep,
        PowerObjectKind.Fixed or PowerObjectKind.Variable => Voltage.Millivolts * FixedCurrentStep / 1000,
        _ => Voltage.Millivolts * AdjustableCurrentStep / 1000,
    };

    /// <summary>Whether the power is the wished one, or less than a step below it.</summary>
    public bool Reaches(Power wish) => Power.Milliwatts + Grain > wish.Milliwatts;

    /// <summary>The request's word.</summary>
    /// <param name="mismatch">Capability Mismatch: nothing that is offered reaches the wish.</param>
    /// <param name="eprCapable">EPR Capable, since R3.1.</param>
    public RequestObject ToRequest(bool mismatch, bool eprCapable)
    {
        Current current = Current ?? PowerDelivery.Units.Current.Zero;
        uint word = Kind switch
        {
            PowerObjectKind.Battery => BatteryRequest.Create(Offered.Position, Power, Power).Raw,
            PowerObjectKind.Pps => PpsRequest.Create(Offered.Position, Voltage, current).Raw,
            PowerObjectKind.SprAvs or PowerObjectKind.EprAvs => AvsRequest.Create(Offered.Position, Voltage, current).Raw,
            _ => FixedVariableRequest.Create(Offered.Position, current, current).Raw,
        };
        return new RequestObject(word)
            .With(RequestObject.CapabilityMismatchField, mismatch)
            .With(RequestObject.EprCapableField, eprCapable);
    }
}
