using Portwitness.Following.Contracts;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Following.Exchanges;

/// <summary>A change from one contract to another, as far as the time that it may take goes (R3.2v1.1, Tables 6.68 and 7.23).</summary>
/// <param name="Limit">The parameter that limits the time to PS_RDY.</param>
/// <param name="IsEpr">In EPR mode.</param>
/// <param name="MovesFixed">From one fixed voltage to another: VBUS begins to move after tSrcTransition.</param>
public readonly record struct PowerStep(string Limit, bool IsEpr, bool MovesFixed)
{
    /// <summary>Reads the step that the request in <paramref name="contracts"/> begins, when it is accepted.</summary>
    /// <param name="contracts">Requests and lists.</param>
    /// <param name="granted">The object of the contract in force; null when there is none, or it is not known.</param>
    /// <param name="grantedVoltage">Its voltage.</param>
    public static PowerStep Of(ContractTracker contracts, OfferedObject? granted, Voltage? grantedVoltage)
    {
        // Where the capture does not show the mode, the longer times count.
        bool epr = contracts.EprMode != false;
        string change = epr ? TimingLimits.TSrcTransReqEpr : TimingLimits.TSrcTransReqSpr;
        OfferedObject? wanted = Selected(contracts);
        Voltage? voltage = contracts.Open?.Voltage;
        if (wanted is not { } to)
        {
            // The largest that any change may take.
            return new PowerStep(TimingLimits.TSrcTransReqEpr, true, false);
        }

        bool isSame = granted is { } from && from.Raw == to.Raw && from.Position == to.Position;
        int? step = voltage is { } v && grantedVoltage is { } before ? Math.Abs(v.Millivolts - before.Millivolts) : null;
        bool movesFixed = granted is { Kind: PowerObjectKind.Fixed } && to.Kind == PowerObjectKind.Fixed && step > 0;
        return to.Kind switch
        {
            PowerObjectKind.Pps when isSame => new(
                step <= VbusLimits.PpsSmallStep.Millivolts ? TimingLimits.TPpsSrcTransSmall : TimingLimits.TPpsSrcTransLarge, epr, false),
            PowerObjectKind.SprAvs or PowerObjectKind.EprAvs => new(
                isSame && step <= VbusLimits.AvsSmallStep.Millivolts ? TimingLimits.TAvsSrcTransSmall : TimingLimits.TAvsSrcTransLarge, epr, false),
            _ => new(change, epr, movesFixed),
        };
    }

    /// <summary>The object that the open request selects; null when it is not known.</summary>
    public static OfferedObject? Selected(ContractTracker contracts) =>
        contracts.Open?.ObjectPosition is { } position && position >= 1 && position <= contracts.InForce.Length
        && contracts.InForce[position - 1].KindIsKnown
            ? contracts.InForce[position - 1]
            : null;
}
