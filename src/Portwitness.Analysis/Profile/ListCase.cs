using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.PdpRules;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.PowerData;

namespace Portwitness.Analysis.Profile;

/// <summary>One capability list and what is known around it: what capability rules look at.</summary>
/// <param name="list">The list as it was received.</param>
/// <param name="evidence">What is known of the sender.</param>
public readonly ref struct ListCase(Advertisement list, SourceEvidence evidence)
{
    /// <summary>Which list.</summary>
    public MessageKind Message => list.Message;

    /// <summary>The message's header; bits that were not shown are 0.</summary>
    public MessageHeader Header => list.Header;

    /// <summary>One bit for each bit of the header that was shown.</summary>
    public ushort HeaderKnown => list.HeaderKnown;

    /// <summary>The objects in order.</summary>
    public ReadOnlySpan<OfferedObject> Objects => list.Objects.AsSpan();

    /// <summary>What is known of the sender.</summary>
    public SourceEvidence Evidence => evidence;

    /// <summary>How the list agrees with the power rules; without breaches for sinks.</summary>
    public PowerFit Power { get; init; }

    /// <summary>Whether an EPR list was sent in EPR mode; null when that was not shown.</summary>
    public bool? InEprMode => list.InEprMode;

    /// <summary>Whether an explicit contract was reached before; until then a managed port may list less (R3.2v1.1, 6.4.11).</summary>
    public bool AfterContract => list.AfterContract;

    /// <summary>Whether it was typed or quoted: no capture is behind it.</summary>
    public bool IsReadOff => list.IsReadOff;

    /// <summary>How to name the edition where a rule depends on it; what was typed or quoted has no header.</summary>
    public string EditionStep => IsReadOff ? SourceEvidence.EditionNextStepReadOff : SourceEvidence.EditionNextStep;

    /// <summary>Sent by a source.</summary>
    public bool IsSource => Message.IsSourceList;

    /// <summary>One of the EPR lists, whose positions 1 to 7 are the SPR objects, zero-filled (R3.2v1.1, 6.5.15.1).</summary>
    public bool IsEpr => list.IsEpr;

    /// <inheritdoc cref="Advertisement.MayHideSprAvs"/>
    public bool MayHideSprAvs => list.MayHideSprAvs;

    /// <summary>Whether there is an object of which the kind was not shown.</summary>
    public bool HasUnknownObjects
    {
        get
        {
            foreach (OfferedObject offered in Objects)
            {
                if (!offered.KindIsKnown)
                {
                    return true;
                }
            }

            return false;
        }
    }

    /// <summary>
    /// What to say of something that R3.2 asks for beside the fixed supplies: null when nothing is open to R3.2; cannot tell
    /// when another edition, a reduced power, or a list before the first contract of a managed port would explain it.
    /// </summary>
    public Verdict? SettleAddition()
    {
        Verdict? settled = IsEpr ? Evidence.SettleEpr(Editions.R32) : Evidence.Settle(Editions.R32);
        bool mayBeShort = Evidence.Sharing != PowerSharing.None && (Power.Basis == PdpBasis.Derived || !AfterContract);
        return settled == Verdict.Fails && mayBeShort ? Verdict.CannotTell : settled;
    }
}
