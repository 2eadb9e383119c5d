using Portwitness.Analysis.Evidence;
using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.Messages;
using Portwitness.PowerDelivery.Units;
using Portwitness.PowerDelivery.VendorDefined;

namespace Portwitness.Analysis.Profile;

/// <summary>What a cable's plug answered to Discover Identity (R3.2v1.1, 6.4.4.3.1, Tables 6.33, 6.41 and 6.42).</summary>
/// <param name="Sop">SOP' or SOP''.</param>
/// <param name="Header">VDM header, which says how the rest is laid out.</param>
/// <param name="Id">ID header.</param>
/// <param name="Objects">Objects of the message, the VDM header among them.</param>
/// <param name="CableVdo">The first product type VDO; null when there is none.</param>
public sealed record CableAnswer(SopKind Sop, VdmHeader Header, IdHeader Id, int Objects, uint? CableVdo)
{
    /// <summary>Product type of a passive cable.</summary>
    public const int Passive = 3;

    /// <summary>Product type of an active cable.</summary>
    public const int Active = 4;

    /// <summary>Product type of a VCONN-powered device.</summary>
    public const int VconnPoweredDevice = 6;

    private const int FirstProductType = 4;
    private const int CaptivePlug = 3;

    /// <summary>3 A, as coded in cable VDOs of all editions.</summary>
    public const int Code3A = 1;

    /// <summary>5 A, as coded in cable VDOs of all editions.</summary>
    public const int Code5A = 2;

    /// <summary>50 V, as coded in cable VDOs of R3.x.</summary>
    public const int Code50V = 3;

    /// <summary>Laid out as R3.x does: only then there is a voltage and an EPR bit.</summary>
    public bool IsR3 => PassiveCableVdo.IsLayoutOf(Header);

    /// <summary>Whether the product type is that of a cable.</summary>
    public bool IsCable => Id.ProductTypeCode is Passive or Active;

    /// <summary>Whether it calls itself fixed to the product; R2.0 codes it in the same place.</summary>
    public bool SaysCaptive => Vdo?.PlugCode == CaptivePlug;

    /// <summary>The VDO of a cable; passive and active cables share the fields that are read here.</summary>
    public PassiveCableVdo? Vdo => IsCable && CableVdo is { } raw ? new PassiveCableVdo(raw) : null;

    /// <summary>Active cables and those of R2.0 say whether VBUS goes through; a passive one of R3.x always does.</summary>
    public bool CarriesVbus => CableVdo is not { } raw || (IsR3 && Id.ProductTypeCode != Active) || new ActiveCableVdo1(raw).VbusThroughCable;

    /// <summary>3 A or 5 A; null when it does not say.</summary>
    public Current? Current => CarriesVbus ? Vdo?.MaximumCurrent : null;

    /// <summary>50 V, 5 A and the EPR bit: all three are needed for EPR mode (6.4.10.1).</summary>
    public bool SuitsEpr => IsR3 && CarriesVbus && Vdo is { EprCapable: true, MaximumVbusCode: Code50V, CurrentCode: Code5A };

    /// <summary>The cable as rules over lists use it; null when it does not say what it carries.</summary>
    public CableEvidence? Evidence => SuitsEpr ? CableEvidence.Epr
        : Current is not { } current ? null
        : current == Electrical.ConnectorMaximum ? CableEvidence.FiveAmpere : CableEvidence.ThreeAmpere;

    /// <summary>Reads a message on SOP' or SOP''; null when it is no such answer. The message must have been shown whole.</summary>
    public static CableAnswer? Of(in MessageView view, SopKind sop)
    {
        if (sop is not (SopKind.SopPrime or SopKind.SopDoublePrime) || !view.Header.SourceOrCablePlug
            || !VendorDefinedView.TryRead(view, sop, out VendorDefinedView answer) || answer.IdHeader is not { } id)
        {
            return null;
        }

        return new CableAnswer(
            sop, answer.Header, id, answer.Count, answer.Count > FirstProductType ? view.ObjectAt(FirstProductType) : null);
    }

    /// <summary>What of EPR it lacks, in words.</summary>
    public string LackedForEpr()
    {
        List<string> lacks = [];
        if (Vdo is not { MaximumVbusCode: Code50V })
        {
            lacks.Add("50 V");
        }

        if (Current != Electrical.ConnectorMaximum)
        {
            lacks.Add("5 A");
        }

        if (Vdo is not { EprCapable: true })
        {
            lacks.Add("the EPR bit");
        }

        return string.Join(", ", lacks);
    }
}
