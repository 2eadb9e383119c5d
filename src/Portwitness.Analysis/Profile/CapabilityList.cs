using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.PdpRules;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.PowerData;

namespace Portwitness.Analysis.Profile;

/// <summary>One capability list and what is known around it: what capability rules look at.</summary>
public readonly ref struct CapabilityList
{
    private const ushort CountBits = 0x7000;

    /// <summary>Which list.</summary>
    public required MessageKind Message { get; init; }

    /// <summary>The message's header; bits that were not shown are 0.</summary>
    public required MessageHeader Header { get; init; }

    /// <summary>One bit for each bit of the header that was shown.</summary>
    public required ushort HeaderKnown { get; init; }

    /// <summary>The objects in order.</summary>
    public required ReadOnlySpan<OfferedObject> Objects { get; init; }

    /// <summary>What is known of the sender.</summary>
    public required SourceEvidence Evidence { get; init; }

    /// <summary>How the list agrees with the power rules; without breaches for sinks.</summary>
    public PowerFit Power { get; init; }

    /// <summary>Whether an EPR list was sent in EPR mode; null when that was not shown.</summary>
    public bool? InEprMode { get; init; }

    /// <summary>Whether an explicit contract was reached before; until then a managed port may list less (R3.2v1.1, 6.4.11).</summary>
    public bool AfterContract { get; init; }

    /// <summary>Whether it was typed or quoted: no capture is behind it.</summary>
    public bool IsReadOff { get; init; }

    /// <summary>How to name the edition where a rule depends on it; what was typed or quoted has no header.</summary>
    public string EditionStep => IsReadOff ? SourceEvidence.EditionNextStepReadOff : SourceEvidence.EditionNextStep;

    /// <summary>Sent by a source.</summary>
    public bool IsSource => Message.IsSourceList;

    /// <summary>One of the EPR lists, whose positions 1 to 7 are the SPR objects, zero-filled (R3.2v1.1, 6.5.15.1).</summary>
    public bool IsEpr => Message.Class == MessageClass.Extended;

    /// <summary>
    /// Whether the list may go on behind its last object: the count was not shown. Some kernels leave SPR AVS out, but no
    /// other object of an SPR list.
    /// </summary>
    public bool MayHideSprAvs => !IsEpr && (HeaderKnown & CountBits) != CountBits && Objects.Length < MessageLimits.MaxSprObjects;

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
