using System.Collections.Immutable;
using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.PdpRules;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Profile;
using Portwitness.Analysis.Rules;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Product.Offers;

/// <summary>What one port was seen to offer under one arrangement: the last list of each kind, and the lists that it took the place of.</summary>
public sealed record PortOffer
{
    /// <summary>The port, as the label names it where it does.</summary>
    public required string Port { get; init; }

    /// <summary>Ports in use, in attach order where that is known.</summary>
    public required ImmutableArray<string> InUse { get; init; }

    /// <summary>Whether the attach order is known.</summary>
    public bool OrderKnown { get; init; } = true;

    /// <summary>
    /// Received only after another port was detached: a source may take its time to offer more again, so that any other capture of the
    /// arrangement goes before it.
    /// </summary>
    public bool AfterDetach { get; init; }

    /// <summary>The capture's name.</summary>
    public required string File { get; init; }

    /// <summary>The list that is compared: the EPR list when there is one, which begins with the SPR objects.</summary>
    public required Advertisement List { get; init; }

    /// <summary>The last SPR list; null when none was captured.</summary>
    public Advertisement? SprList { get; init; }

    /// <summary>
    /// What was offered under the same arrangement before <see cref="List"/>, in order, each with a list of the same kind: what was
    /// offered once was offered. These have no earlier ones themselves.
    /// </summary>
    public ImmutableArray<PortOffer> Earlier { get; init; } = [];

    /// <summary>How long the list was in force while this arrangement lasted, in microseconds.</summary>
    public long ForUs { get; init; }

    /// <summary>Editions that the evidence leaves open.</summary>
    public required Editions Editions { get; init; }

    /// <summary>The cable.</summary>
    public required CableEvidence Cable { get; init; }

    /// <summary>
    /// A port that may be managed need not list everything before its first explicit contract (R3.2v1.1, 6.4.11);
    /// true when no contract was seen and the port may be managed.
    /// </summary>
    public required bool MayListMore { get; init; }

    /// <summary>The power that the port declares of itself (Source_Info, Source_Capabilities_Extended); null when it does not.</summary>
    public Power? Declared => List.PdpBasis == PdpBasis.Declared ? List.Pdp : null;

    /// <summary>Whether an EPR list was captured.</summary>
    public bool ShowsEpr => List.Message == MessageKind.EPRSourceCapabilities;

    /// <summary>Whether the source says that it is designed for EPR; null when that bit was not shown.</summary>
    public bool? EprCapable => List.Objects is [{ Kind: PowerObjectKind.Fixed } first, ..]
        && first.Knows(FixedSourceSupply.EprCapableField)
            ? first.AsSource().AsFixed().EprCapable
            : null;

    /// <summary>The cable may keep currents above 3 A out of the list (R3.2v1.1, 4.4).</summary>
    public bool CableMayHideCurrent => Cable is CableEvidence.Unknown or CableEvidence.ThreeAmpere;

    /// <summary>EPR may be there without having been captured.</summary>
    public bool MayHideEpr => !ShowsEpr && EprCapable != false;

    /// <summary>Whether objects of the list, or their voltage or current, were not shown or not written down: what seems to be missing may be there.</summary>
    public bool HidesObjects => List.MayBeCut || List.Objects.Any(offered => !offered.IsZero && offered.Kind != PowerObjectKind.Reserved
        && (offered.HighestVoltage() is null || offered.LowestVoltage() is null || HidesCurrent(offered)));

    /// <inheritdoc cref="Advertisement.MayHideSprAvs"/>
    public bool MayHideSprAvs => List.MayHideSprAvs;

    /// <summary>The largest power among fixed and EPR AVS objects of the last list, in mW.</summary>
    public int LargestPowerMilliwatts => LargestPowerOf(List);

    /// <summary>The same of all lists that were offered under the arrangement.</summary>
    public int MostPowerMilliwatts => Earlier.Aggregate(LargestPowerMilliwatts, static (most, one) => Math.Max(most, one.LargestPowerMilliwatts));

    /// <summary>An offered current may be so much more or less than it reads, where it was rounded. Milliamperes.</summary>
    public int CurrentSlackMilliamperes => List.CurrentRoundingMilliamperes / 2;

    /// <summary>The same of the largest power, in mW.</summary>
    public int PowerSlackMilliwatts => CurrentSlackMilliamperes == 0 ? 0 : List.Objects
        .Where(static offered => offered is { KindIsKnown: true, Kind: PowerObjectKind.Fixed, IsZero: false })
        .Select(offered => offered.AsSource().AsFixed().Voltage.Millivolts * CurrentSlackMilliamperes / 1_000)
        .DefaultIfEmpty(0).Max();

    /// <summary>Whether the list was recognised on a photo and nobody has compared it: nothing rests on it.</summary>
    public bool IsUnchecked => List.IsUnchecked;

    /// <summary>What shows the whole list.</summary>
    public Phrase WholeListStep => List.MayBeCut ? CaptureSteps.WholeList(List) : NextSteps.WholeList;

    /// <summary>What shows currents above 3 A.</summary>
    public Phrase CableStep => CaptureSteps.FiveAmpereCableFor(List.IsReadOff);

    /// <summary>What shows that a port lists all that it has.</summary>
    public Phrase ContractStep => List.Evidence == ListEvidence.Typed ? NextSteps.UnderContract : NextSteps.AfterContract;

    /// <summary>"c1.capture.jsonl, message 3".</summary>
    public string Place => $"{File}, message {List.MessageIndex}";

    /// <summary>The largest power among fixed and EPR AVS objects of a list, in mW.</summary>
    internal static int LargestPowerOf(Advertisement list)
    {
        int largest = PowerFitter.LargestFixedPower(list.Objects.AsSpan());
        foreach (OfferedObject offered in list.Objects)
        {
            if (offered.KindIsKnown && offered.Kind == PowerObjectKind.EprAvs)
            {
                largest = Math.Max(largest, offered.AsSource().AsEprAvs().Pdp.Milliwatts);
            }
        }

        return largest;
    }

    private static bool HidesCurrent(OfferedObject offered) => offered.MaximumCurrent() is null
        && offered.Kind is PowerObjectKind.Fixed or PowerObjectKind.Pps or PowerObjectKind.SprAvs;
}
