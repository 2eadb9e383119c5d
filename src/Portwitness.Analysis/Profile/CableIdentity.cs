using Portwitness.PowerDelivery.Messages;
using Portwitness.PowerDelivery.Units;
using Portwitness.PowerDelivery.VendorDefined;

namespace Portwitness.Analysis.Profile;

/// <summary>Reads the current that a cable says it carries from its answer to Discover Identity.</summary>
internal static class CableIdentity
{
    // VDM header, ID header, Cert Stat, Product, then the cable VDO (R3.2v1.1, Figure 6.16).
    private const int CableObject = 4;

    /// <summary>3 A or 5 A; null when the message is not a cable's answer or its code is invalid.</summary>
    /// <remarks>The current has the same bits in the VDOs of passive and active cables, and in R2.0.</remarks>
    public static Current? CurrentOf(in MessageView view) =>
        view.Header.Kind == MessageKind.VendorDefined && view.Header.SourceOrCablePlug
        && view.CompleteObjects > CableObject && new VdmHeader(view.ObjectAt(0)).IsIdentity
            ? new PassiveCableVdo(view.ObjectAt(CableObject)).MaximumCurrent
            : null;
}
