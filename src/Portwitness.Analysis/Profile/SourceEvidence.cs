using Portwitness.Analysis.Findings;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Analysis.Profile;

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

    /// <summary>What <see cref="PdpBasis"/> says of a PDP that the port itself states.</summary>
    public const string Declared = "declared";

    /// <summary>What <see cref="PdpBasis"/> says of a PDP that is printed for the port.</summary>
    public const string Printed = "printed";

    /// <summary>Nothing known.</summary>
    public static SourceEvidence None { get; } = new();

    /// <summary>Editions that the source may follow.</summary>
    public Editions Editions { get; init; } = Editions.All;

    /// <summary>The cable.</summary>
    public CableEvidence Cable { get; init; }

    /// <summary>The cable is known, and carries more than 3 A.</summary>
    public bool CableCarries5A => Cable is CableEvidence.FiveAmpere or CableEvidence.Epr;

    /// <summary>Whether the port's power can be reduced because of other ports.</summary>
    public PowerSharing Sharing { get; init; }

    /// <summary>PD power that is printed or declared for the port; null when neither is known.</summary>
    public Power? Pdp { get; init; }

    /// <summary>"printed" or "declared"; empty when <see cref="Pdp"/> is null.</summary>
    public string PdpBasis { get; init; } = "";

    /// <summary>
    /// What to say of something that is wrong under some editions: null when it is right under all that are open,
    /// fails when it is wrong under all of them, cannot tell otherwise.
    /// </summary>
    public Verdict? Settle(Editions wrongUnder) => Settle(Editions, wrongUnder);

    /// <summary>The same for what only editions with EPR know: earlier ones are not open.</summary>
    public Verdict? SettleEpr(Editions wrongUnder) =>
        Settle((Editions & (Editions.R31 | Editions.R32)) is var open and not Editions.None ? open : Editions, wrongUnder);

    private static Verdict? Settle(Editions open, Editions wrongUnder) =>
        (open & wrongUnder) == 0 ? null : (open & ~wrongUnder) == 0 ? Verdict.Fails : Verdict.CannotTell;
}
