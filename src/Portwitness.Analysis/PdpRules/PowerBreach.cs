using Portwitness.Analysis.Phrases;

namespace Portwitness.Analysis.PdpRules;

/// <summary>How a list breaks a power rule.</summary>
public enum PowerBreachKind
{
    /// <summary>A voltage that the PDP makes normative is not offered.</summary>
    VoltageMissing,

    /// <summary>A normative voltage is offered with too little current.</summary>
    CurrentTooLow,

    /// <summary>An object offers more than the PDP.</summary>
    BeyondPdp,

    /// <summary>A battery supply offers more than the PDP.</summary>
    BatteryBeyondPdp,

    /// <summary>An EPR voltage, or EPR AVS, that the PDP makes normative is not offered.</summary>
    EprObjectMissing,

    /// <summary>An EPR voltage is offered that the PDP does not allow.</summary>
    EprVoltageNotAllowed,
}

/// <summary>One breach of the power rules.</summary>
/// <param name="Kind">Which rule.</param>
/// <param name="Position">Position of the object; 0 for a missing object.</param>
/// <param name="Millivolts">The voltage in mV; 0 for EPR AVS.</param>
/// <param name="Expected">The limit: mA, or mW for a battery supply and EPR AVS.</param>
/// <param name="Observed">What is offered: mA, or mW for a battery supply and EPR AVS.</param>
/// <param name="HiddenByCable">A 3 A cable, which the evidence does not exclude, would explain it.</param>
public readonly record struct PowerBreach(
    PowerBreachKind Kind, int Position, int Millivolts, int Expected, int Observed, bool HiddenByCable)
{
    /// <summary>Whether it is about an EPR object: the power rules of EPR are those of R3.2 (Table 10.12).</summary>
    public bool IsEpr => Position >= PowerDelivery.Limits.MessageLimits.FirstEprPosition || Kind == PowerBreachKind.EprObjectMissing;

    /// <summary>The limit in words.</summary>
    public Phrase ExpectedText => Amount(Expected);

    /// <summary>What is offered in words.</summary>
    public Phrase ObservedText => Amount(Observed);

    private Phrase Amount(int amount) => Kind == PowerBreachKind.BatteryBeyondPdp || Millivolts == 0
        ? Phrase.Of($"{PowerRules.Watts(amount)}")
        : $"{PowerRules.Amperes(amount)}";
}
