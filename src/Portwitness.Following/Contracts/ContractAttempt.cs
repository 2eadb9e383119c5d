using Portwitness.PowerDelivery.Units;

namespace Portwitness.Following.Contracts;

/// <summary>How a request ended (R3.2v1.1, 6.4.2).</summary>
public enum ContractOutcome
{
    /// <summary>Accepted, and PS_RDY followed: an explicit contract.</summary>
    Ready,

    /// <summary>Accepted; no PS_RDY was seen.</summary>
    Accepted,

    /// <summary>Rejected.</summary>
    Rejected,

    /// <summary>Answered by Wait.</summary>
    Wait,

    /// <summary>Ended by a reset before it was answered.</summary>
    Reset,

    /// <summary>No answer was seen.</summary>
    Unanswered,
}

/// <summary>What ended an explicit contract.</summary>
public enum ContractEnd
{
    /// <summary>It was in force when the capture ended.</summary>
    Open,

    /// <summary>Another contract took its place.</summary>
    Replaced,

    /// <summary>A hard reset.</summary>
    HardReset,

    /// <summary>The port was detached.</summary>
    Detached,
}

/// <summary>A request and what became of it. What the capture does not show is null.</summary>
public readonly record struct ContractAttempt
{
    /// <summary>A request that nobody has answered yet.</summary>
    public ContractAttempt()
    {
    }

    /// <summary>Index of the request, counted from 1.</summary>
    public required long MessageIndex { get; init; }

    /// <summary>Microseconds from the start of the capture.</summary>
    public required long RequestedUs { get; init; }

    /// <summary>When it was accepted.</summary>
    public long? AcceptedUs { get; init; }

    /// <summary>When PS_RDY came.</summary>
    public long? ReadyUs { get; init; }

    /// <summary>How it ended.</summary>
    public ContractOutcome Outcome { get; init; } = ContractOutcome.Unanswered;

    /// <summary>When an explicit contract ended; null when it was still in force.</summary>
    public long? EndedUs { get; init; }

    /// <summary>What ended it.</summary>
    public ContractEnd End { get; init; }

    /// <summary>How often the same was requested and granted again while it was in force, as PPS asks for.</summary>
    public long Renewals { get; init; }

    /// <summary>Whether it was asked for in EPR mode (6.4.10).</summary>
    public bool InEprMode { get; init; }

    /// <summary>Position of the requested object, counted from 1.</summary>
    public int? ObjectPosition { get; init; }

    /// <summary>The voltage asked for; for battery and variable objects there is none.</summary>
    public Voltage? Voltage { get; init; }

    /// <summary>The operating current asked for.</summary>
    public Current? Current { get; init; }

    /// <summary>The power asked for: stated for a battery object, otherwise voltage times current.</summary>
    public Power? Power { get; init; }

    /// <summary>Whether the sink said that it wants more.</summary>
    public bool? CapabilityMismatch { get; init; }

    /// <summary>What was measured while it was in force and VBUS had settled; null when nothing was.</summary>
    public MeasuredPower? Measured { get; init; }

    /// <summary>The same, slice by slice; null when nothing was measured.</summary>
    public MeasuredSlices? MeasuredOverTime { get; init; }
}
