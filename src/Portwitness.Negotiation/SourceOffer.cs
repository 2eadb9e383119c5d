using System.Collections.Immutable;
using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.PdpRules;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.PowerDelivery.Units;
using Portwitness.Product.Offers;

namespace Portwitness.Negotiation;

/// <summary>What a device meets at a port: the lists in force, and what of them may have stayed hidden.</summary>
public sealed record SourceOffer
{
    // A copy shares it, and may have another limit.
    private readonly Dictionary<(OfferedObject Offered, Power Limit), SupplyCurve> _curves = [];

    /// <summary>The port; empty when not known.</summary>
    public required string Port { get; init; }

    /// <summary>Ports in use, in attach order; empty when not known.</summary>
    public ImmutableArray<string> InUse { get; init; } = [];

    /// <summary>The capture's name, or "label".</summary>
    public required string File { get; init; }

    /// <summary>The list's message, counted from 1 over the messages of the capture; null for a label.</summary>
    public long? MessageIndex { get; init; }

    /// <summary>The objects of Source_Capabilities.</summary>
    public required ImmutableArray<OfferedObject> Spr { get; init; }

    /// <summary>The objects of EPR_Source_Capabilities, padding among them; empty when it was not seen.</summary>
    public ImmutableArray<OfferedObject> Epr { get; init; } = [];

    /// <summary>Whether the source says that it is designed for EPR; null when that was not shown.</summary>
    public bool? EprCapable { get; init; }

    /// <summary>The PD power that the list shows; null when it shows none.</summary>
    public Power? Pdp { get; init; }

    /// <summary>The cable belongs to the source: the device's own is not used.</summary>
    public bool HasCaptiveCable { get; init; }

    /// <summary>The cable of the capture may have kept currents above 3 A out of the list (R3.2v1.1, 4.4).</summary>
    public bool CableMayHideCurrent { get; init; }

    /// <summary>Something of the list was not shown.</summary>
    public bool HidesObjects { get; init; }

    /// <summary>It is what a label prints, not what was captured.</summary>
    public bool IsPrinted { get; init; }

    /// <summary>It was recognised on a photo, and nobody has compared it: nothing rests on it.</summary>
    public bool IsUnchecked { get; init; }

    /// <summary>A managed port need not list everything before its first contract (R3.2v1.1, 6.4.11).</summary>
    public bool MayListMore { get; init; }

    /// <summary>
    /// What a power-limited supply may be limited to: the PD power where it agrees with the largest of the fixed objects, which is rounded
    /// by less than a watt (R3.2v1.1, 10.2), and otherwise that.
    /// </summary>
    public Power PowerLimit
    {
        get
        {
            int most = Math.Max(PowerFitter.LargestFixedPower(Spr.AsSpan()), PowerFitter.LargestFixedPower(Epr.AsSpan()));
            return Pdp is { } pdp && pdp.Milliwatts >= most && pdp.Milliwatts - most < 1_000 ? pdp : Power.FromMilliwatts(most);
        }
    }

    /// <summary>What a port offered under one arrangement of a capture.</summary>
    public static SourceOffer Of(PortOffer offer)
    {
        ImmutableArray<OfferedObject> spr = !offer.ShowsEpr ? offer.List.Objects
            : offer.SprList?.Objects ?? [.. offer.List.Objects.Take(MessageLimits.MaxSprObjects).Where(static offered => !offered.IsZero)];
        return new SourceOffer
        {
            Port = offer.Port,
            InUse = offer.InUse,
            File = offer.File,
            Spr = spr,
            Epr = offer.ShowsEpr ? offer.List.Objects : [],
            EprCapable = offer.EprCapable,
            MessageIndex = offer.List.MessageIndex,
            Pdp = offer.List.Pdp,
            HasCaptiveCable = offer.Cable == CableEvidence.Captive,
            CableMayHideCurrent = offer.CableMayHideCurrent
                && !offer.List.Objects.Any(static offered => offered.MaximumCurrent() > Electrical.UnmarkedCableMaximum),
            HidesObjects = offer.HidesObjects || offer.MayHideSprAvs,
            MayListMore = offer.MayListMore,
            IsUnchecked = offer.IsUnchecked,
        };
    }

    /// <summary>What one of its adjustable supplies gives at each voltage.</summary>
    public SupplyCurve CurveOf(OfferedObject offered)
    {
        (OfferedObject Offered, Power Limit) key = (offered, PowerLimit);
        if (!_curves.TryGetValue(key, out SupplyCurve? curve))
        {
            curve = SupplyCurve.Of(offered, key.Limit);
            _curves.Add(key, curve);
        }

        return curve;
    }
}
