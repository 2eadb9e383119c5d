using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Analysis.Evidence;

/// <summary>What is known of the cable in use.</summary>
public enum CableEvidence
{
    /// <summary>Nothing.</summary>
    Unknown,

    /// <summary>Carries 3 A.</summary>
    ThreeAmpere,

    /// <summary>Carries 5 A, at 20 V.</summary>
    FiveAmpere,

    /// <summary>Carries 5 A at 50 V, and says that it is made for EPR (R3.2v1.1, 6.4.10.1).</summary>
    Epr,

    /// <summary>Fixed to the source, which knows it and need not ask (R3.2v1.1, 6.4.10.1).</summary>
    Captive,
}

/// <summary>What is known of a source besides its list. Rules judge a list by this and say what is missing.</summary>
public sealed record SourceEvidence
{
    /// <summary>How to name the edition when a rule depends on it.</summary>
    public const string EditionNextStep =
        "State the edition (--edition, or \"edition\" in the capture's header), or capture the source's Revision message.";

    /// <summary>The same for a list that was typed or quoted, which has no header.</summary>
    public const string EditionNextStepReadOff = "State the edition with --edition, or capture the port: its Revision message says it.";

    /// <summary>What is left to do where only a text that was not read can decide.</summary>
    public const string OldEditionNextStep = "Compare with the text of Revision 2.0, or capture with a device of Revision 3.";

    /// <summary>Editions under which a source may follow a profile: the power rules came with R2.0v1.2.</summary>
    public const Editions ProfileEra = Editions.R10 | Editions.R20;

    /// <summary>Nothing known.</summary>
    public static SourceEvidence None { get; } = new();

    /// <summary>Editions that the source may follow.</summary>
    public Editions Editions { get; init; } = Editions.All;

    /// <summary>The source states a version that was read, none newer than R3.2v1.1 (Revision message, 6.4.12).</summary>
    public bool VersionIsRead { get; init; }

    /// <summary>The cable.</summary>
    public CableEvidence Cable { get; init; }

    /// <summary>The cable is known, and carries more than 3 A.</summary>
    public bool CableCarries5A => Cable is CableEvidence.FiveAmpere or CableEvidence.Epr;

    /// <summary>Whether the port's power can be reduced because of other ports.</summary>
    public PowerSharing Sharing { get; init; }

    /// <summary>PD power that is printed or declared for the port; null when neither is known.</summary>
    public Power? Pdp { get; init; }

    /// <summary>How <see cref="Pdp"/> is known; nothing when it is null.</summary>
    public PdpBasis PdpBasis { get; init; }

    /// <summary>The source is known to be older than R3.0.</summary>
    public bool IsBeforeR30 => (Editions & Editions.R3x) == 0;

    /// <summary>What to say of something that is wrong since R3.0: of Revision 2.0 the text was not read.</summary>
    public Verdict SettleSinceR30() => IsBeforeR30 ? Verdict.CannotTell : Verdict.Fails;

    /// <summary>Whether the source may be older than the power rules of R2.0v1.2, and follow a profile.</summary>
    public bool MayFollowProfiles => (Editions & ProfileEra) != 0;

    /// <summary>
    /// What to say of something that is wrong under every edition that knows it, of which only some were read: null when none of
    /// them is open, fails when all of them that are open were read, cannot tell otherwise.
    /// </summary>
    /// <param name="known">Editions that know it; who sends it claims to follow one of them.</param>
    /// <param name="read">Editions of which the project has the text.</param>
    public Verdict? SettleAmong(Editions known, Editions read) => (Editions & known) switch
    {
        Editions.None => null,
        var open when (open & ~read) == 0 => Verdict.Fails,
        _ => Verdict.CannotTell,
    };

    /// <summary>
    /// What to say of something that is wrong under some editions: null when it is right under all that are open,
    /// fails when it is wrong under all of them, cannot tell otherwise.
    /// </summary>
    public Verdict? Settle(Editions wrongUnder) => Among(Editions, wrongUnder);

    /// <summary>The same for what only editions with EPR know: earlier ones are not open.</summary>
    public Verdict? SettleEpr(Editions wrongUnder) =>
        Among((Editions & (Editions.R31 | Editions.R32)) is var open and not Editions.None ? open : Editions, wrongUnder);

    private static Verdict? Among(Editions open, Editions wrongUnder) =>
        (open & wrongUnder) == 0 ? null : (open & ~wrongUnder) == 0 ? Verdict.Fails : Verdict.CannotTell;
}
