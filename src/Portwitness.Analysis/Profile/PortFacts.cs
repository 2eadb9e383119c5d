using System.Collections.Immutable;
using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.PdpRules;
using Portwitness.Captures;
using Portwitness.PowerDelivery.ExtendedBlocks;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.Messages;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Analysis.Profile;

/// <summary>What is known of the captured port besides its lists: what was stated, and what it says of itself.</summary>
internal sealed class PortFacts
{
    // Below this a rating may have half watts, and a port declares the whole ones only (R3.2v1.1, 6.4.11 and 10.1).
    private const int WholeWattsFrom = 10_000;

    private readonly PortStatement _stated;
    private readonly EditionTracker _editions;
    private readonly CableTracker _cable = new();
    private SourceInfoObject? _info;
    private Power? _rating;
    private bool _wasReduced;

    public PortFacts(PortStatement stated)
    {
        _stated = stated;
        _editions = new EditionTracker(stated.Edition);
        if (stated.CaptiveCable)
        {
            _cable.StateCaptive();
        }
    }

    /// <summary>Editions that are left open.</summary>
    public Editions Editions => _editions.Open;

    /// <summary>The source states a version of the standard that was read, none newer than R3.2v1.1.</summary>
    public bool VersionIsRead => _editions.VersionIsRead;

    /// <summary>The cable in words.</summary>
    public string CableText => _cable.Text;

    /// <summary>The cable as rules use it.</summary>
    public CableEvidence Cable => _cable.Evidence;

    /// <summary>The capture's header.</summary>
    public void OnHeader(CaptureHeader header)
    {
        if (header.Cable is { } cable)
        {
            _cable.State(cable);
        }

        _editions.State(header.Edition);
    }

    /// <summary>A message of the source that shows its revision.</summary>
    public void OnRevisionCode(int code) => _editions.Saw(code);

    /// <summary>The source's Revision message.</summary>
    public void OnRevision(RevisionObject revision) => _editions.Declared(revision);

    /// <summary>The source's Source_Info message.</summary>
    public void OnSourceInfo(SourceInfoObject info)
    {
        _info = info;
        _wasReduced |= info.PresentPdp < info.MaximumPdp;
    }

    /// <summary>The source's Source_Capabilities_Extended: its ratings, of which the larger one is the port's (6.5.1).</summary>
    public void OnExtended(SourceCapabilitiesExtendedBlock extended)
    {
        int spr = extended.SprSourcePdp?.Milliwatts ?? 0;
        int epr = extended.EprSourcePdp?.Milliwatts ?? 0;
        _rating = Power.FromMilliwatts(Math.Max(spr, epr));
    }

    /// <summary>The cable's answer to Discover Identity.</summary>
    public void OnCable(CableEvidence marker) => _cable.Answered(marker);

    /// <summary>What rules may rely on for a list that was received while these ports were in use.</summary>
    public SourceEvidence EvidenceFor(ImmutableArray<string> inUse, bool fromSource) => EvidenceFor(IsAlone(inUse), fromSource);

    /// <summary>Whether no other port than the captured one was in use.</summary>
    public static bool IsAlone(ImmutableArray<string> inUse) => inUse.Length <= 1;

    /// <summary>The same for a port that was in use alone, or beside others.</summary>
    public SourceEvidence EvidenceFor(bool alone, bool fromSource)
    {
        (Power? pdp, PdpBasis basis) = (null, PdpBasis.None);
        Power? declared = _info?.MaximumPdp ?? _rating;
        if (alone && fromSource && declared?.Milliwatts >= WholeWattsFrom)
        {
            (pdp, basis) = (declared, PdpBasis.Declared);
        }
        else if (alone && fromSource && _stated.PrintedPdp is { } printed && PowerRules.IsRatingFigure(printed.Milliwatts))
        {
            (pdp, basis) = (printed, PdpBasis.Printed);
        }

        return new SourceEvidence
        {
            Editions = _editions.Open,
            VersionIsRead = _editions.VersionIsRead,
            Cable = _cable.Evidence,
            Sharing = !alone || _wasReduced ? PowerSharing.InUse
                : _info is null ? _stated.Sharing
                : _info.Value.Guaranteed ? PowerSharing.None : PowerSharing.Possible,
            Pdp = pdp,
            PdpBasis = basis,
        };
    }
}
