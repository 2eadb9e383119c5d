using Portwitness.Analysis.Measuring;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Analysis.Rules;

/// <summary>What a source says of its output, beside what was measured shortly before.</summary>
/// <param name="Message">PPS_Status or Status.</param>
/// <param name="Instrument">How it was measured.</param>
/// <param name="Volts">Measured, in millivolts.</param>
/// <param name="Amps">Measured, in milliamperes.</param>
public sealed record StatusCase(MessageKind Message, Instrument Instrument, RecentSamples.Range Volts, RecentSamples.Range Amps)
{
    /// <summary>The voltage that the source says; null when it says none.</summary>
    public Voltage? Told { get; init; }

    /// <summary>The current that the source says; null when it says none.</summary>
    public Current? ToldCurrent { get; init; }

    /// <summary>Whether the source says that it limits the current; null when it does not say.</summary>
    public bool? Limits { get; init; }

    /// <summary>The contract in force; null when it is not known.</summary>
    public VbusTerms? Terms { get; init; }

    /// <summary>What a cable may have lost before the point of measuring, in millivolts.</summary>
    public required int LostInCable { get; init; }
}

/// <summary>A rule about what a source says of its output.</summary>
public abstract class StatusRule : VbusRule
{
    /// <summary>Looks at what was said and measured, and reports what breaks this rule.</summary>
    public abstract void Check(StatusCase seen, IHitSink hits);
}
