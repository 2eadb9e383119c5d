using Portwitness.PowerDelivery.Messages;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.PowerDelivery.Tests.Support;

internal static partial class WireTypes
{
    private static IEnumerable<WireType> Small() =>
    [
        new("epr_mode", EprModeObject.Layout, 0, 0,
            raw => new() { ["action"] = (int)new EprModeObject(raw).Action, ["data"] = new EprModeObject(raw).Data },
            f => EprModeObject.Create((EprModeAction)f["action"], f["data"]).Raw,
            raw => new EprModeObject(raw).ToString()),

        new("source_info", SourceInfoObject.Layout, 0, 0,
            raw =>
            {
                SourceInfoObject o = new(raw);
                return new()
                {
                    ["guaranteed"] = N(o.Guaranteed), ["maximum_pdp_w"] = Watts(o.MaximumPdp),
                    ["present_pdp_w"] = Watts(o.PresentPdp), ["reported_pdp_w"] = Watts(o.ReportedPdp),
                };
            },
            f => SourceInfoObject.Create(
                f.Is("guaranteed"), W(f["maximum_pdp_w"] * 1000), W(f["present_pdp_w"] * 1000),
                W(f["reported_pdp_w"] * 1000)).Raw,
            raw => new SourceInfoObject(raw).ToString()),

        new("revision", RevisionObject.Layout, 0, 0,
            raw =>
            {
                RevisionObject o = new(raw);
                return new()
                {
                    ["revision_major"] = o.RevisionMajor, ["revision_minor"] = o.RevisionMinor,
                    ["version_major"] = o.VersionMajor, ["version_minor"] = o.VersionMinor,
                };
            },
            f => RevisionObject.Create(
                f["revision_major"], f["revision_minor"], f["version_major"], f["version_minor"]).Raw,
            raw => new RevisionObject(raw).ToString()),

        new("alert", AlertObject.Layout, 0, 0,
            raw =>
            {
                AlertObject o = new(raw);
                return new()
                {
                    ["extended_alert"] = N(o.ExtendedAlert), ["ovp"] = N(o.Ovp),
                    ["source_input_change"] = N(o.SourceInputChange),
                    ["operating_condition_change"] = N(o.OperatingConditionChange), ["otp"] = N(o.Otp),
                    ["ocp"] = N(o.Ocp), ["battery_status_change"] = N(o.BatteryStatusChange),
                    ["fixed_batteries"] = o.FixedBatteries, ["hot_swappable_batteries"] = o.HotSwappableBatteries,
                    ["extended_type_code"] = o.ExtendedTypeCode,
                };
            },
            f => AlertObject.Create(f["fixed_batteries"], f["hot_swappable_batteries"], f["extended_type_code"])
                .With(AlertObject.ExtendedAlertField, f.Is("extended_alert"))
                .With(AlertObject.OvpField, f.Is("ovp"))
                .With(AlertObject.SourceInputChangeField, f.Is("source_input_change"))
                .With(AlertObject.OperatingConditionField, f.Is("operating_condition_change"))
                .With(AlertObject.OtpField, f.Is("otp"))
                .With(AlertObject.OcpField, f.Is("ocp"))
                .With(AlertObject.BatteryStatusChangeField, f.Is("battery_status_change")).Raw,
            raw => new AlertObject(raw).ToString()),

        new("battery_status", BatteryStatusObject.Layout, 0, 0,
            raw =>
            {
                BatteryStatusObject o = new(raw);
                return new()
                {
                    ["present_capacity_mwh"] = o.PresentCapacity?.MilliwattHours ?? -1,
                    ["charging_code"] = o.ChargingCode, ["battery_present"] = N(o.BatteryPresent),
                    ["invalid_reference"] = N(o.InvalidReference),
                };
            },
            f => BatteryStatusObject.Create(
                f["present_capacity_mwh"] == -1 ? null : Energy.FromMilliwattHours(f["present_capacity_mwh"]),
                f["charging_code"], f.Is("battery_present"), f.Is("invalid_reference")).Raw,
            raw => new BatteryStatusObject(raw).ToString()),

        new("bist", BistObject.Layout, 0, 0,
            raw => new() { ["mode_code"] = new BistObject(raw).ModeCode },
            f => BistObject.Create(f["mode_code"]).Raw,
            raw => new BistObject(raw).ToString()),

        new("enter_usb", EnterUsbObject.Layout, 0, 0,
            raw =>
            {
                EnterUsbObject o = new(raw);
                return new()
                {
                    ["mode_code"] = o.ModeCode, ["cable_speed_code"] = o.CableSpeedCode,
                    ["cable_type_code"] = o.CableTypeCode, ["cable_current_code"] = o.CableCurrentCode,
                    ["usb4_drd"] = N(o.Usb4DualRole), ["usb3_drd"] = N(o.Usb3DualRole), ["pcie"] = N(o.Pcie),
                    ["dp"] = N(o.Dp), ["tbt"] = N(o.Tbt), ["host_present"] = N(o.HostPresent),
                };
            },
            f => EnterUsbObject.Create(
                f["mode_code"], f["cable_speed_code"], f["cable_type_code"], f["cable_current_code"])
                .With(EnterUsbObject.Usb4DualRoleField, f.Is("usb4_drd"))
                .With(EnterUsbObject.Usb3DualRoleField, f.Is("usb3_drd"))
                .With(EnterUsbObject.PcieField, f.Is("pcie"))
                .With(EnterUsbObject.DpField, f.Is("dp"))
                .With(EnterUsbObject.TbtField, f.Is("tbt"))
                .With(EnterUsbObject.HostPresentField, f.Is("host_present")).Raw,
            raw => new EnterUsbObject(raw).ToString()),
    ];
}
