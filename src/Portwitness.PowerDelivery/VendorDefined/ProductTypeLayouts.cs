using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Layout;

namespace Portwitness.PowerDelivery.VendorDefined;

/// <summary>Which product type VDOs follow an ID header (R3.2v1.1, 6.4.4.3.1, Figure 6.16).</summary>
/// <remarks>That a port which is both UFP and DFP sends UFP VDO, a word of zeroes and DFP VDO is from memory.</remarks>
internal static class ProductTypeLayouts
{
    private const int Hub = 1;
    private const int Peripheral = 2;
    private const int Charger = 3;
    private const int PassiveCable = 3;
    private const int ActiveCable = 4;
    private const int Vpd = 6;

    private static readonly BitLayout Raw = VendorDataObject.Layout;

    /// <summary>The layout of a product type VDO.</summary>
    /// <param name="answer">Version 1.0 lays cables out otherwise.</param>
    /// <param name="id">The ID header of the answer.</param>
    /// <param name="sop">A port or a cable plug answers.</param>
    /// <param name="index">Counted from 0.</param>
    /// <param name="count">How many there are.</param>
    internal static BitLayout For(VdmHeader answer, IdHeader id, SopKind sop, int index, int count)
    {
        bool isR3 = PassiveCableVdo.IsLayoutOf(answer);
        return sop == SopKind.Sop ? isR3 ? OfPort(id, index, count) : Raw : OfPlug(id.ProductTypeCode, index, isR3);
    }

    private static BitLayout OfPlug(int productType, int index, bool isR3) => (productType, index, isR3) switch
    {
        (PassiveCable, 0, true) => PassiveCableVdo.Layout,
        (ActiveCable, 0, true) => ActiveCableVdo1.Layout,
        (ActiveCable, 1, true) => ActiveCableVdo2.Layout,
        (PassiveCable or ActiveCable, 0, false) => CableVdoR20.Layout,
        (Vpd, 0, true) => VpdVdo.Layout,
        _ => Raw,
    };

    private static BitLayout OfPort(IdHeader id, int index, int count)
    {
        bool isUfp = id.ProductTypeCode is Hub or Peripheral;
        bool isDfp = id.DfpTypeCode is >= Hub and <= Charger;
        int dfpIndex = !isUfp ? 0 : count > 2 ? 2 : 1;
        return index == 0 && isUfp ? UfpVdo.Layout : isDfp && index == dfpIndex ? DfpVdo.Layout : Raw;
    }
}
