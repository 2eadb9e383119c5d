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
}

/// <summary>One breach of the power rules.</summary>
/// <param name="Kind">Which rule.</param>
/// <param name="Position">Position of the object; 0 for a missing voltage.</param>
/// <param name="Millivolts">The voltage in mV.</param>
/// <param name="Expected">The limit: mA, or mW for a battery supply.</param>
/// <param name="Observed">What is offered: mA, or mW for a battery supply.</param>
/// <param name="HiddenByCable">A 3 A cable, which the evidence does not exclude, would explain it.</param>
public readonly record struct PowerBreach(
    PowerBreachKind Kind, int Position, int Millivolts, int Expected, int Observed, bool HiddenByCable);
