using System.Collections.Immutable;
using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Findings;
using Portwitness.Analysis.PdpRules;
using Portwitness.Analysis.Profile;
using Portwitness.Captures;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Analysis.Conversation;

/// <summary>
/// The capability lists of a capture. They are judged last, by all that was learned of the port and its cable.
/// </summary>
internal sealed class CapabilityLists(CaptureContext context)
{
    private const ushort RevisionBits = 0x00C0;

    // 9 V 2.22 A are 19.98 W of a source of 20 W (R3.2v1.1, 10.2).
    private const int RoundingMilliwatts = 1_000;

    private readonly AdvertisementLog _log = new();
    private ListPreview? _preview;
    private readonly Dictionary<MessageKind, int> _largestPower = [];

    /// <summary>Lists beyond <see cref="AdvertisementLog.Most"/>.</summary>
    public long Unlisted => _log.Unlisted;

    /// <summary>The lists in order, each as it was received.</summary>
    public IReadOnlyList<Advertisement> Received => _log.Lists;

    /// <summary>How often a list was judged for <see cref="Preview"/>.</summary>
    public long PreviewJudgements => _preview?.Judgements ?? 0;

    /// <summary>The number of the present attach of the captured port.</summary>
    public int Attach => _log.Attach;

    /// <summary>A list was received.</summary>
    public void Learn(long timeUs, long index, MessageHeader header, ushort headerKnown, ReadOnlySpan<OfferedObject> objects)
    {
        MessageKind kind = header.Kind;
        bool byPartner = context.Role.IsPartners(header, headerKnown);
        bool fromSource = kind.IsSourceList && !byPartner;
        if (fromSource && (headerKnown & RevisionBits) == RevisionBits)
        {
            context.Facts.OnRevisionCode(header.RevisionCode);
        }

        if (fromSource && objects is [{ Kind: PowerObjectKind.Fixed } first, ..] && first.Knows(FixedSourceSupply.DualRolePowerField))
        {
            context.Track.OnDualRolePower(first.AsSource().AsFixed().DualRolePower);
        }

        CaptureOrigin? origin = context.Header?.Origin;
        if (origin == CaptureOrigin.Quoted)
        {
            // Lists of one text may be those of several sources: each stands for itself.
            _log.OnDetach();
        }

        Advertisement? list = _log.Repeated(kind, byPartner, objects, context.Arrangement.InUse);
        if (list is null)
        {
            list = new Advertisement(
                timeUs, index, kind, header, headerKnown, [.. objects], context.Arrangement.InUse, 0, null, PdpBasis.None)
            {
                ByPartner = byPartner,
                RoleIsCertain = context.Role.IsCertain,
                InEprMode = context.Contracts.EprMode,
                AfterContract = context.Contracts.AnyReady,
                Attach = _log.Attach,
                CurrentRoundingMilliamperes = context.Header?.CurrentRoundingMilliamperes ?? 0,
                OrderKnown = context.Arrangement.OrderKnown,
                MayBeCut = context.Header?.ListsMayBeCut == true,
                IsUnchecked = context.Header?.ListsUnchecked == true,
                Evidence = origin switch
                {
                    CaptureOrigin.Sysfs or CaptureOrigin.Words => ListEvidence.Shown,
                    CaptureOrigin.Quoted => ListEvidence.Quoted,
                    CaptureOrigin.Offers => ListEvidence.Typed,
                    _ => ListEvidence.Recorded,
                },
            };
            if (_log.Add(list) is { } displaced)
            {
                Judge(displaced);
            }
        }

        if (fromSource)
        {
            _largestPower[kind] = Math.Max(_largestPower.GetValueOrDefault(kind), PowerFitter.LargestFixedPower(objects));
        }

        // Requests refer to what a source offers, whichever side that is now; an answer of the sink is no offer.
        if (kind.IsSourceList && (byPartner == context.Role.IsSwapped))
        {
            context.Contracts.OnCapabilities(kind, list.Objects);
        }
    }

    /// <summary>The largest power that any list shows, in mW: when it grows, other lists may be those of a source that fell back.</summary>
    public int LargestMilliwatts => _largestPower.Count == 0 ? 0 : _largestPower.Values.Max();

    /// <summary>After a detach a list stands for itself, even if it is the same as before.</summary>
    public void OnDetach() => _log.OnDetach();

    /// <summary>Judges all lists and gives them with what was learned of their PD power.</summary>
    public ImmutableArray<Advertisement> Judge() => [.. _log.Lists.Select(Judge)];

    /// <summary>What is wrong with the lists by all that is known now. Nothing is kept of it: what comes later may excuse it.</summary>
    public IReadOnlyList<Finding> Preview() => (_preview ??= new ListPreview(context, _log)).Update();

    /// <summary>
    /// What rules may rely on for a list. A source that offered more in the same capture has fallen back: its list is judged by
    /// the power that it shows, not by that of the port (R3.2v1.1, 6.4.1).
    /// </summary>
    public SourceEvidence EvidenceFor(Advertisement list) =>
        EvidenceFor(list, context.Facts.EvidenceFor(list.InUse, list.Message.IsSourceList && !list.ByPartner));

    /// <summary>The same, from what is known of the port.</summary>
    public SourceEvidence EvidenceFor(Advertisement list, SourceEvidence evidence)
    {
        bool fromSource = list.Message.IsSourceList && !list.ByPartner;
        bool isReduced = fromSource
            && _largestPower.GetValueOrDefault(list.Message) - PowerFitter.LargestFixedPower(list.Objects.AsSpan()) > RoundingMilliwatts;
        return isReduced ? evidence with { Sharing = PowerSharing.InUse, Pdp = null, PdpBasis = PdpBasis.None } : evidence;
    }

    private Advertisement Judge(Advertisement list)
    {
        context.FindAt(list.TimeUs, list.MessageIndex, list.InUse);
        PowerFit fit = CapabilityChecker.Check(list, EvidenceFor(list), context.Rules, context.Findings);
        return fit.PdpMilliwatts == 0
            ? list
            : list with { Pdp = Power.FromMilliwatts(fit.PdpMilliwatts), PdpBasis = fit.Basis };
    }
}
