using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Layout;
using Portwitness.PowerDelivery.Messages;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.PowerDelivery.Requests;
using Portwitness.PowerDelivery.VendorDefined;

namespace Portwitness.PowerDelivery.Explanations;

/// <summary>Every layout of this library, for views and documents that show them all.</summary>
public static class BitLayouts
{
    /// <summary>In the order of the standard's chapters.</summary>
    public static IReadOnlyList<BitLayout> All { get; } =
    [
        MessageHeader.Layout, MessageHeader.CablePlugLayout, MessageHeader.LayoutR20, ExtendedHeader.Layout,

        FixedSourceSupply.Layout, BatterySourceSupply.Layout, VariableSourceSupply.Layout, PpsSourceSupply.Layout,
        SprAvsSourceSupply.Layout, EprAvsSourceSupply.Layout, SourcePowerObject.ReservedLayout,

        FixedSinkSupply.Layout, BatterySinkSupply.Layout, VariableSinkSupply.Layout, PpsSinkSupply.Layout,
        SprAvsSinkSupply.Layout, EprAvsSinkSupply.Layout,

        FixedVariableRequest.Layout, BatteryRequest.Layout, PpsRequest.Layout, AvsRequest.Layout,
        RequestObject.UnknownLayout,
        FixedVariableRequest.LayoutBeforeR31, BatteryRequest.LayoutBeforeR31, PpsRequest.LayoutBeforeR31,
        FixedVariableRequest.GiveBackLayout, BatteryRequest.GiveBackLayout, RequestObject.UnknownLayoutBeforeR31,

        BistObject.Layout, BatteryStatusObject.Layout, AlertObject.Layout, EnterUsbObject.Layout,
        EprModeObject.Layout, SourceInfoObject.Layout, RevisionObject.Layout, GetCountryInfoObject.Layout,
        DataObjectLayouts.UnknownLayout,

        VdmHeader.StructuredLayout, VdmHeader.UnstructuredLayout, IdHeader.Layout, IdHeader.CablePlugLayout,
        CertStat.Layout, ProductVdo.Layout, PassiveCableVdo.Layout, ActiveCableVdo1.Layout, CableVdoR20.Layout,
        ActiveCableVdo2.Layout, UfpVdo.Layout, DfpVdo.Layout, VpdVdo.Layout, SvidPair.Layout, VendorDataObject.Layout,
    ];
}
