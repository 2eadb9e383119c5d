using Portwitness.PowerDelivery.VendorDefined;

namespace Portwitness.PowerDelivery.Tests.Support;

internal static partial class WireTypes
{
    private static IEnumerable<WireType> ProductTypes() =>
    [
        new("active_cable_2", ActiveCableVdo2.Layout, 0, 0,
            raw =>
            {
                ActiveCableVdo2 o = new(raw);
                return new()
                {
                    ["max_operating_temperature"] = o.MaximumOperatingTemperature,
                    ["shutdown_temperature"] = o.ShutdownTemperature, ["idle_power_code"] = o.IdlePowerCode,
                    ["through_u3s"] = N(o.ThroughU3S), ["optical"] = N(o.Optical), ["retimer"] = N(o.Retimer),
                    ["usb4_not_supported"] = N(!o.Usb4), ["hub_hops"] = o.HubHops, ["usb2_not_supported"] = N(!o.Usb2),
                    ["usb32_not_supported"] = N(!o.Usb32), ["two_lanes"] = N(o.TwoLanes),
                    ["optically_isolated"] = N(o.OpticallyIsolated), ["gen2"] = N(o.Gen2),
                };
            },
            f => ActiveCableVdo2.Create(
                    f["max_operating_temperature"], f["shutdown_temperature"], f["idle_power_code"], f["hub_hops"])
                .With(ActiveCableVdo2.ThroughU3SField, f.Is("through_u3s"))
                .With(ActiveCableVdo2.OpticalField, f.Is("optical"))
                .With(ActiveCableVdo2.RetimerField, f.Is("retimer"))
                .With(ActiveCableVdo2.Usb4NotSupportedField, f.Is("usb4_not_supported"))
                .With(ActiveCableVdo2.Usb2NotSupportedField, f.Is("usb2_not_supported"))
                .With(ActiveCableVdo2.Usb32NotSupportedField, f.Is("usb32_not_supported"))
                .With(ActiveCableVdo2.TwoLanesField, f.Is("two_lanes"))
                .With(ActiveCableVdo2.OpticallyIsolatedField, f.Is("optically_isolated"))
                .With(ActiveCableVdo2.Gen2Field, f.Is("gen2")).Raw,
            raw => new ActiveCableVdo2(raw).ToString()),

        new("ufp", UfpVdo.Layout, 0, 0,
            raw =>
            {
                UfpVdo o = new(raw);
                return new()
                {
                    ["version_code"] = o.VersionCode, ["device_capability"] = o.DeviceCapabilityBits,
                    ["connector_code"] = o.ConnectorCode, ["vconn_power_code"] = o.VconnPowerCode,
                    ["vconn_required"] = N(o.VconnRequired), ["vbus_not_required"] = N(!o.VbusRequired),
                    ["alternate_modes"] = o.AlternateModeBits, ["speed_code"] = o.SpeedCode,
                };
            },
            f => UfpVdo.Create(
                    f["version_code"], f["device_capability"], f["connector_code"], f["vconn_power_code"],
                    f["alternate_modes"], f["speed_code"])
                .With(UfpVdo.VconnRequiredField, f.Is("vconn_required"))
                .With(UfpVdo.VbusNotRequiredField, f.Is("vbus_not_required")).Raw,
            raw => new UfpVdo(raw).ToString()),

        new("dfp", DfpVdo.Layout, 0, 0,
            raw =>
            {
                DfpVdo o = new(raw);
                return new()
                {
                    ["version_code"] = o.VersionCode, ["host_capability"] = o.HostCapabilityBits,
                    ["connector_code"] = o.ConnectorCode, ["port_number"] = o.PortNumber,
                };
            },
            f => DfpVdo.Create(f["version_code"], f["host_capability"], f["connector_code"], f["port_number"]).Raw,
            raw => new DfpVdo(raw).ToString()),

        new("vpd", VpdVdo.Layout, 0, 0,
            raw =>
            {
                VpdVdo o = new(raw);
                return new()
                {
                    ["hardware_version"] = o.HardwareVersion, ["firmware_version"] = o.FirmwareVersion,
                    ["vdo_version_code"] = o.VdoVersionCode, ["max_vbus_code"] = o.MaximumVbusCode,
                    ["charge_through_5a"] = VpdVdo.ChargeThrough5AField.Get(raw),
                    ["vbus_impedance_code"] = o.VbusImpedanceCode, ["ground_impedance_code"] = o.GroundImpedanceCode,
                    ["charge_through"] = N(o.ChargeThrough),
                };
            },
            f => VpdVdo.Create(
                    f["max_vbus_code"], f["vbus_impedance_code"], f["ground_impedance_code"], f["hardware_version"],
                    f["firmware_version"], f["vdo_version_code"])
                .With(VpdVdo.ChargeThrough5AField, f.Is("charge_through_5a"))
                .With(VpdVdo.ChargeThroughField, f.Is("charge_through")).Raw,
            raw => new VpdVdo(raw).ToString()),

        new("svid_pair", SvidPair.Layout, 0, 0,
            raw => new() { ["first"] = new SvidPair(raw).First, ["second"] = new SvidPair(raw).Second },
            f => SvidPair.Create(f["first"], f["second"]).Raw,
            raw => new SvidPair(raw).ToString()),
    ];
}
