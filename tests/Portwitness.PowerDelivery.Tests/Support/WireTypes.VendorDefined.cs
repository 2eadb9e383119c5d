using Portwitness.PowerDelivery.VendorDefined;

namespace Portwitness.PowerDelivery.Tests.Support;

internal static partial class WireTypes
{
    private static IEnumerable<WireType> Vendor() =>
    [
        new("structured_vdm", VdmHeader.StructuredLayout, 1u << 15, 0,
            raw =>
            {
                VdmHeader o = new(raw);
                return new()
                {
                    ["svid"] = o.VendorId, ["structured"] = N(o.Structured), ["major_version_code"] = o.MajorVersionCode,
                    ["minor_version_code"] = o.MinorVersionCode, ["object_position"] = o.ObjectPosition,
                    ["command_type"] = (int)o.CommandType, ["command"] = o.Command,
                };
            },
            f => VdmHeader.CreateStructured(
                f["svid"], f["major_version_code"], f["minor_version_code"], (VdmCommandType)f["command_type"],
                f["command"], f["object_position"]).Raw,
            raw => new VdmHeader(raw).ToString()),

        new("unstructured_vdm", VdmHeader.UnstructuredLayout, 0, 0,
            raw =>
            {
                VdmHeader o = new(raw);
                return new() { ["svid"] = o.VendorId, ["structured"] = N(o.Structured), ["vendor_use"] = o.VendorUse };
            },
            f => VdmHeader.CreateUnstructured(f["svid"], f["vendor_use"]).Raw,
            raw => new VdmHeader(raw).ToString()),

        new("id_header", IdHeader.Layout, 0, 0,
            raw =>
            {
                IdHeader o = new(raw);
                return new()
                {
                    ["usb_host"] = N(o.UsbHost), ["usb_device"] = N(o.UsbDevice),
                    ["product_type_code"] = o.ProductTypeCode, ["modal_operation"] = N(o.ModalOperation),
                    ["dfp_type_code"] = o.DfpTypeCode, ["connector_code"] = o.ConnectorCode, ["vendor_id"] = o.VendorId,
                };
            },
            f => IdHeader.Create(
                f["vendor_id"], f["product_type_code"], f["dfp_type_code"], f["connector_code"], f.Is("usb_host"),
                f.Is("usb_device"), f.Is("modal_operation")).Raw,
            raw => new IdHeader(raw).ToString()),

        new("product", ProductVdo.Layout, 0, 0,
            raw => new()
            {
                ["product_id"] = new ProductVdo(raw).ProductId, ["device_release"] = new ProductVdo(raw).DeviceRelease,
            },
            f => ProductVdo.Create(f["product_id"], f["device_release"]).Raw,
            raw => new ProductVdo(raw).ToString()),

        new("passive_cable", PassiveCableVdo.Layout, 0, 0,
            raw =>
            {
                PassiveCableVdo o = new(raw);
                return new()
                {
                    ["hardware_version"] = o.HardwareVersion, ["firmware_version"] = o.FirmwareVersion,
                    ["vdo_version_code"] = o.VdoVersionCode, ["plug_code"] = o.PlugCode, ["epr_capable"] = N(o.EprCapable), ["latency_code"] = o.LatencyCode,
                    ["termination_code"] = o.TerminationCode, ["max_vbus_code"] = o.MaximumVbusCode,
                    ["current_code"] = o.CurrentCode, ["speed_code"] = o.SpeedCode,
                };
            },
            f => PassiveCableVdo.Create(Codes(f)).With(PassiveCableVdo.EprCapableField, f.Is("epr_capable")).Raw,
            raw => new PassiveCableVdo(raw).ToString()),

        new("active_cable", ActiveCableVdo1.Layout, 0, 0,
            raw =>
            {
                ActiveCableVdo1 o = new(raw);
                return new()
                {
                    ["hardware_version"] = o.HardwareVersion, ["firmware_version"] = o.FirmwareVersion,
                    ["vdo_version_code"] = o.VdoVersionCode, ["plug_code"] = o.PlugCode, ["epr_capable"] = N(o.EprCapable), ["latency_code"] = o.LatencyCode,
                    ["termination_code"] = o.TerminationCode, ["max_vbus_code"] = o.MaximumVbusCode,
                    ["sbu_not_supported"] = N(o.SbuNotSupported), ["sbu_active"] = N(o.SbuActive),
                    ["current_code"] = o.CurrentCode, ["vbus_through_cable"] = N(o.VbusThroughCable),
                    ["sop_double_prime"] = N(o.SopDoublePrimeController), ["speed_code"] = o.SpeedCode,
                };
            },
            f => ActiveCableVdo1.Create(Codes(f))
                .With(ActiveCableVdo1.EprCapableField, f.Is("epr_capable"))
                .With(ActiveCableVdo1.SbuNotSupportedField, f.Is("sbu_not_supported"))
                .With(ActiveCableVdo1.SbuActiveField, f.Is("sbu_active"))
                .With(ActiveCableVdo1.VbusThroughCableField, f.Is("vbus_through_cable"))
                .With(ActiveCableVdo1.SopDoublePrimeField, f.Is("sop_double_prime")).Raw,
            raw => new ActiveCableVdo1(raw).ToString()),
        .. ProductTypes(),
    ];

    private static CableCodes Codes(FieldReader f) => new(
        f["latency_code"], f["termination_code"], f["max_vbus_code"], f["current_code"], f["speed_code"], f["plug_code"],
        f["hardware_version"], f["firmware_version"], f["vdo_version_code"]);
}
