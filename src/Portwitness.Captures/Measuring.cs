namespace Portwitness.Captures;

/// <summary>Where along the cable VBUS is measured.</summary>
public enum MeasuringPoint
{
    /// <summary>Not stated.</summary>
    Unknown,

    /// <summary>At the port's own connector.</summary>
    Source,

    /// <summary>Behind the cable, at the device.</summary>
    Sink,

    /// <summary>At an instrument between port and device; some of the cable may lie before it.</summary>
    Tester,
}

/// <summary>
/// How far a measurement may be off, as the instrument's maker states it: so many mV or mA, and so many millionths of the
/// value. Null: not stated.
/// </summary>
/// <param name="VbusMillivolts">0 to 1,000,000 mV.</param>
/// <param name="VbusPpm">0 to 1,000,000 millionths.</param>
/// <param name="IbusMilliamperes">0 to 1,000,000 mA.</param>
/// <param name="IbusPpm">0 to 1,000,000 millionths.</param>
public sealed record MeasuringAccuracy(int? VbusMillivolts, int? VbusPpm, int? IbusMilliamperes, int? IbusPpm)
{
    /// <summary>Largest value of each.</summary>
    public const int Maximum = 1_000_000;

    /// <summary>Whether anything is stated of the voltage.</summary>
    public bool StatesVoltage => (VbusMillivolts ?? VbusPpm) is not null;

    /// <summary>Whether anything is stated of the current.</summary>
    public bool StatesCurrent => (IbusMilliamperes ?? IbusPpm) is not null;
}
