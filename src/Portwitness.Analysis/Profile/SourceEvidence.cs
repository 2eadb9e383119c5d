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

    /// <summary>Carries 5 A.</summary>
    FiveAmpere,

    /// <summary>Fixed to the source, which knows it and need not ask (R3.2v1.1, 6.4.10.1).</summary>
    Captive,
}

/// <summary>What is known of a source besides its list. Rules judge a list by this and say what is missing.</summary>
public sealed record SourceEvidence
{
    /// <summary>How to name the edition when a rule depends on it.</summary>
    public const string EditionNextStep =
        "State the edition (--edition, or \"edition\" in the capture's header), or capture the source's Revision message.";

    /// <summary>Nothing known.</summary>
    public static SourceEvidence None { get; } = new();

    /// <summary>Editions that the source may follow.</summary>
    public Editions Editions { get; init; } = Editions.All;

    /// <summary>The cable.</summary>
    public CableEvidence Cable { get; init; }

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
    public Verdict? Settle(Editions wrongUnder) =>
        (Editions & wrongUnder) == 0 ? null : (Editions & ~wrongUnder) == 0 ? Verdict.Fails : Verdict.CannotTell;
}
