namespace Portwitness.Following.States;

/// <summary>The mode of power (R3.2v1.1, 6.4.10).</summary>
public enum PowerMode
{
    /// <summary>Standard Power Range: where every attach and Hard Reset begins.</summary>
    Spr,

    /// <summary>Extended Power Range.</summary>
    Epr,
}

/// <summary>What the two ports owe each other.</summary>
public enum Phase
{
    /// <summary>Nothing that could change power, roles or mode.</summary>
    Quiet,

    /// <summary>The source owes an answer to a request for power.</summary>
    Requested,

    /// <summary>The request was accepted: the source owes PS_RDY.</summary>
    Granted,

    /// <summary>EPR_Mode Enter: the source owes its outcome.</summary>
    EnteringEpr,

    /// <summary>PR_Swap or FR_Swap: the other port owes an answer.</summary>
    SwapAsked,

    /// <summary>The swap was accepted: roles change until the new source sends its capabilities.</summary>
    Swapping,

    /// <summary>VCONN_Swap: the other port owes an answer.</summary>
    VconnSwapAsked,

    /// <summary>VCONN_Swap was accepted: the new VCONN Source owes PS_RDY.</summary>
    VconnSwapping,

    /// <summary>Any other request that Accept, Reject or Wait answers.</summary>
    OtherAsked,
}

/// <summary>One state that the conversation of two ports may be in.</summary>
/// <param name="Mode">SPR or EPR.</param>
/// <param name="Contract">
/// The explicit contract in force: index of its request in the capture, counted from 1; <see cref="NoContract"/> or <see cref="Unseen"/>.
/// </param>
/// <param name="Phase">What is owed.</param>
/// <param name="Request">The request in phases Requested and Granted, as <paramref name="Contract"/>; otherwise <see cref="NoContract"/>.</param>
/// <param name="RolesSwapped">Power roles are the other way round than at the attach.</param>
public readonly record struct PortState(PowerMode Mode, long Contract, Phase Phase, long Request, bool RolesSwapped)
{
    /// <summary>No explicit contract: default power.</summary>
    public const long NoContract = 0;

    /// <summary>A contract, or a request, that the capture does not show.</summary>
    public const long Unseen = -1;

    /// <summary>After an attach or a Hard Reset.</summary>
    public static PortState Fresh { get; } = new(PowerMode.Spr, NoContract, Phase.Quiet, NoContract, false);

    /// <summary>The same with nothing owed.</summary>
    public PortState Quiet() => this with { Phase = Phase.Quiet, Request = NoContract };

    /// <summary>The same with something else owed.</summary>
    public PortState In(Phase phase) => this with { Phase = phase, Request = NoContract };

    /// <summary>The same with a request that awaits its answer.</summary>
    public PortState Asked(long request) => this with { Phase = Phase.Requested, Request = request };

    /// <summary>What was asked is in force.</summary>
    public PortState Ready() => this with { Contract = Request, Phase = Phase.Quiet, Request = NoContract };

    /// <summary>After a power role swap: the other port is the source and has no contract yet.</summary>
    public PortState Swapped() => new(Mode, NoContract, Phase.Quiet, NoContract, !RolesSwapped);
}
