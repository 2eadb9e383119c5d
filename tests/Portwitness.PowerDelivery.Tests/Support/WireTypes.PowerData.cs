using Portwitness.PowerDelivery.PowerData;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.PowerDelivery.Tests.Support;

internal static partial class WireTypes
{
    private static IEnumerable<WireType> Sources() =>
    [
        new("fixed_source", FixedSourceSupply.Layout, 0, 0,
            raw =>
            {
                FixedSourceSupply o = new SourcePowerObject(raw).AsFixed();
                return new()
                {
                    ["dual_role_power"] = N(o.DualRolePower), ["usb_suspend_supported"] = N(o.UsbSuspendSupported),
                    ["unconstrained_power"] = N(o.UnconstrainedPower),
                    ["usb_communications_capable"] = N(o.UsbCommunicationsCapable),
                    ["dual_role_data"] = N(o.DualRoleData),
                    ["unchunked_extended_messages"] = N(o.UnchunkedExtendedMessagesSupported),
                    ["epr_capable"] = N(o.EprCapable), ["peak_current_code"] = o.PeakCurrentCode,
                    ["voltage_mv"] = o.Voltage.Millivolts, ["max_current_ma"] = o.MaximumCurrent.Milliamperes,
                };
            },
            f => FixedSourceSupply.Create(V(f["voltage_mv"]), A(f["max_current_ma"]), f["peak_current_code"])
                .With(FixedSourceSupply.DualRolePowerField, f.Is("dual_role_power"))
                .With(FixedSourceSupply.UsbSuspendSupportedField, f.Is("usb_suspend_supported"))
                .With(FixedSourceSupply.UnconstrainedPowerField, f.Is("unconstrained_power"))
                .With(FixedSourceSupply.UsbCommunicationsCapableField, f.Is("usb_communications_capable"))
                .With(FixedSourceSupply.DualRoleDataField, f.Is("dual_role_data"))
                .With(FixedSourceSupply.UnchunkedField, f.Is("unchunked_extended_messages"))
                .With(FixedSourceSupply.EprCapableField, f.Is("epr_capable")).Raw,
            raw => new FixedSourceSupply(raw).ToString()),

        new("battery_source", BatterySourceSupply.Layout, 0x4000_0000, 0,
            raw =>
            {
                BatterySourceSupply o = new SourcePowerObject(raw).AsBattery();
                return Range(o.MinimumVoltage, o.MaximumVoltage, "max_power_mw", o.MaximumPower.Milliwatts);
            },
            f => BatterySourceSupply.Create(V(f["min_voltage_mv"]), V(f["max_voltage_mv"]), W(f["max_power_mw"])).Raw,
            raw => new BatterySourceSupply(raw).ToString()),

        new("variable_source", VariableSourceSupply.Layout, 0x8000_0000, 0,
            raw =>
            {
                VariableSourceSupply o = new SourcePowerObject(raw).AsVariable();
                return Range(o.MinimumVoltage, o.MaximumVoltage, "max_current_ma", o.MaximumCurrent.Milliamperes);
            },
            f => VariableSourceSupply.Create(V(f["min_voltage_mv"]), V(f["max_voltage_mv"]), A(f["max_current_ma"])).Raw,
            raw => new VariableSourceSupply(raw).ToString()),

        new("pps_source", PpsSourceSupply.Layout, 0xC000_0000, 0,
            raw =>
            {
                PpsSourceSupply o = new SourcePowerObject(raw).AsPps();
                Dictionary<string, long> fields =
                    Range(o.MinimumVoltage, o.MaximumVoltage, "max_current_ma", o.MaximumCurrent.Milliamperes);
                fields["power_limited"] = N(o.PowerLimited);
                return fields;
            },
            f => PpsSourceSupply.Create(
                V(f["min_voltage_mv"]), V(f["max_voltage_mv"]), A(f["max_current_ma"]), f.Is("power_limited")).Raw,
            raw => new PpsSourceSupply(raw).ToString()),

        new("spr_avs_source", SprAvsSourceSupply.Layout, 0xE000_0000, 0,
            raw =>
            {
                SprAvsSourceSupply o = new SourcePowerObject(raw).AsSprAvs();
                return new()
                {
                    ["peak_current_code"] = o.PeakCurrentCode,
                    ["max_current_15v_ma"] = o.MaximumCurrentTo15V.Milliamperes,
                    ["max_current_20v_ma"] = o.MaximumCurrentTo20V.Milliamperes,
                };
            },
            f => SprAvsSourceSupply.Create(
                A(f["max_current_15v_ma"]), A(f["max_current_20v_ma"]), f["peak_current_code"]).Raw,
            raw => new SprAvsSourceSupply(raw).ToString()),

        new("epr_avs_source", EprAvsSourceSupply.Layout, 0xD000_0000, 0,
            raw =>
            {
                EprAvsSourceSupply o = new SourcePowerObject(raw).AsEprAvs();
                Dictionary<string, long> fields =
                    Range(o.MinimumVoltage, o.MaximumVoltage, "pdp_w", Watts(o.Pdp));
                fields["peak_current_code"] = o.PeakCurrentCode;
                return fields;
            },
            f => EprAvsSourceSupply.Create(
                V(f["min_voltage_mv"]), V(f["max_voltage_mv"]), W(f["pdp_w"] * 1000), f["peak_current_code"]).Raw,
            raw => new EprAvsSourceSupply(raw).ToString()),
    ];

    private static IEnumerable<WireType> Sinks() =>
    [
        new("fixed_sink", FixedSinkSupply.Layout, 0, 0,
            raw =>
            {
                FixedSinkSupply o = new SinkPowerObject(raw).AsFixed();
                return new()
                {
                    ["dual_role_power"] = N(o.DualRolePower), ["higher_capability"] = N(o.HigherCapability),
                    ["unconstrained_power"] = N(o.UnconstrainedPower),
                    ["usb_communications_capable"] = N(o.UsbCommunicationsCapable),
                    ["dual_role_data"] = N(o.DualRoleData), ["fast_role_swap_code"] = o.FastRoleSwapCode,
                    ["voltage_mv"] = o.Voltage.Millivolts, ["operational_current_ma"] = o.OperationalCurrent.Milliamperes,
                };
            },
            f => FixedSinkSupply.Create(V(f["voltage_mv"]), A(f["operational_current_ma"]), f["fast_role_swap_code"])
                .With(FixedSinkSupply.DualRolePowerField, f.Is("dual_role_power"))
                .With(FixedSinkSupply.HigherCapabilityField, f.Is("higher_capability"))
                .With(FixedSinkSupply.UnconstrainedPowerField, f.Is("unconstrained_power"))
                .With(FixedSinkSupply.UsbCommunicationsCapableField, f.Is("usb_communications_capable"))
                .With(FixedSinkSupply.DualRoleDataField, f.Is("dual_role_data")).Raw,
            raw => new FixedSinkSupply(raw).ToString()),

        new("battery_sink", BatterySinkSupply.Layout, 0x4000_0000, 0,
            raw =>
            {
                BatterySinkSupply o = new SinkPowerObject(raw).AsBattery();
                return Range(o.MinimumVoltage, o.MaximumVoltage, "operational_power_mw", o.OperationalPower.Milliwatts);
            },
            f => BatterySinkSupply.Create(
                V(f["min_voltage_mv"]), V(f["max_voltage_mv"]), W(f["operational_power_mw"])).Raw,
            raw => new BatterySinkSupply(raw).ToString()),

        new("variable_sink", VariableSinkSupply.Layout, 0x8000_0000, 0,
            raw =>
            {
                VariableSinkSupply o = new SinkPowerObject(raw).AsVariable();
                return Range(
                    o.MinimumVoltage, o.MaximumVoltage, "operational_current_ma", o.OperationalCurrent.Milliamperes);
            },
            f => VariableSinkSupply.Create(
                V(f["min_voltage_mv"]), V(f["max_voltage_mv"]), A(f["operational_current_ma"])).Raw,
            raw => new VariableSinkSupply(raw).ToString()),

        new("pps_sink", PpsSinkSupply.Layout, 0xC000_0000, 0,
            raw =>
            {
                PpsSinkSupply o = new SinkPowerObject(raw).AsPps();
                return Range(o.MinimumVoltage, o.MaximumVoltage, "max_current_ma", o.MaximumCurrent.Milliamperes);
            },
            f => PpsSinkSupply.Create(V(f["min_voltage_mv"]), V(f["max_voltage_mv"]), A(f["max_current_ma"])).Raw,
            raw => new PpsSinkSupply(raw).ToString()),

        new("spr_avs_sink", SprAvsSinkSupply.Layout, 0xE000_0000, 0,
            raw =>
            {
                SprAvsSinkSupply o = new SinkPowerObject(raw).AsSprAvs();
                return new()
                {
                    ["max_current_15v_ma"] = o.MaximumCurrentTo15V.Milliamperes,
                    ["max_current_20v_ma"] = o.MaximumCurrentTo20V.Milliamperes,
                };
            },
            f => SprAvsSinkSupply.Create(A(f["max_current_15v_ma"]), A(f["max_current_20v_ma"])).Raw,
            raw => new SprAvsSinkSupply(raw).ToString()),

        new("epr_avs_sink", EprAvsSinkSupply.Layout, 0xD000_0000, 0,
            raw =>
            {
                EprAvsSinkSupply o = new SinkPowerObject(raw).AsEprAvs();
                return Range(o.MinimumVoltage, o.MaximumVoltage, "pdp_w", Watts(o.Pdp));
            },
            f => EprAvsSinkSupply.Create(V(f["min_voltage_mv"]), V(f["max_voltage_mv"]), W(f["pdp_w"] * 1000)).Raw,
            raw => new EprAvsSinkSupply(raw).ToString()),
    ];

    private static Dictionary<string, long> Range(Voltage minimum, Voltage maximum, string name, int value) =>
        new() { ["min_voltage_mv"] = minimum.Millivolts, ["max_voltage_mv"] = maximum.Millivolts, [name] = value };

    private static int Watts(Power power) => power.Milliwatts / 1000;
}
