using Portwitness.Analysis.Profile;
using Portwitness.PowerDelivery.Layout;
using Portwitness.PowerDelivery.PowerData;
using Wire = Portwitness.Contracts.V1;

namespace Portwitness.Service.Translation;

/// <summary>Fixed supplies of sources and sinks; bits 28 and 24 to 20 differ between the two.</summary>
internal static class FixedSupplyTranslation
{
    public static Wire.FixedSupply Read(OfferedObject offered, bool sink)
    {
        Wire.FixedSupply supply = new();
        BitLayout layout = FixedSourceSupply.Layout;
        offered.Read(layout, "Voltage", value => supply.VoltageMv = value);
        offered.Read(layout, "Maximum Current", value => supply.MaxCurrentMa = value);
        offered.Read(layout, "Dual-Role Power", value => supply.DualRolePower = value != 0);
        offered.Read(layout, "Unconstrained Power", value => supply.UnconstrainedPower = value != 0);
        offered.Read(layout, "USB Communications Capable", value => supply.UsbCommunicationsCapable = value != 0);
        offered.Read(layout, "Dual-Role Data", value => supply.DualRoleData = value != 0);
        if (!sink)
        {
            offered.Read(layout, "USB Suspend Supported", value => supply.UsbSuspendSupported = value != 0);
            offered.Read(
                layout, "Unchunked Extended Messages Supported", value => supply.UnchunkedExtendedMessages = value != 0);
            offered.Read(layout, "EPR Capable", value => supply.EprCapable = value != 0);
            offered.Read(layout, "Peak Current", value => supply.PeakCurrentCode = value);
        }

        return supply;
    }
}
