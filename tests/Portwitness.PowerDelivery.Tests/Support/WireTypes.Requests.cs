using Portwitness.PowerDelivery.Requests;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.PowerDelivery.Tests.Support;

internal static partial class WireTypes
{

    // The two lowest bits of an AVS voltage, which Create does not set.
    private const uint AvsFineSteps = 3u << 9;

    private static IEnumerable<WireType> Requests() =>
    [
        new("fixed_variable_request", FixedVariableRequest.Layout, 0, 0,
            raw =>
            {
                FixedVariableRequest o = new RequestObject(raw).AsFixedVariable();
                Dictionary<string, long> fields = Common(o.Request);
                fields["give_back"] = N(o.Request.GiveBack);
                fields["operating_current_ma"] = o.OperatingCurrent.Milliamperes;
                fields["max_operating_current_ma"] = o.MaximumOperatingCurrent?.Milliamperes ?? 0;
                fields["min_operating_current_ma"] = o.MinimumOperatingCurrent?.Milliamperes ?? 0;
                return fields;
            },
            f => WithFlags(
                FixedVariableRequest.Create(
                    f["object_position"], A(f["operating_current_ma"]),
                    A(f[f.Is("give_back") ? "min_operating_current_ma" : "max_operating_current_ma"])).Request,
                f),
            raw => new FixedVariableRequest(raw).ToString()),

        new("battery_request", BatteryRequest.Layout, 0, 0,
            raw =>
            {
                BatteryRequest o = new RequestObject(raw).AsBattery();
                Dictionary<string, long> fields = Common(o.Request);
                fields["give_back"] = N(o.Request.GiveBack);
                fields["operating_power_mw"] = o.OperatingPower.Milliwatts;
                fields["max_operating_power_mw"] = o.MaximumOperatingPower?.Milliwatts ?? 0;
                fields["min_operating_power_mw"] = o.MinimumOperatingPower?.Milliwatts ?? 0;
                return fields;
            },
            f => WithFlags(
                BatteryRequest.Create(
                    f["object_position"], W(f["operating_power_mw"]),
                    W(f[f.Is("give_back") ? "min_operating_power_mw" : "max_operating_power_mw"])).Request,
                f),
            raw => new BatteryRequest(raw).ToString()),

        new("pps_request", PpsRequest.Layout, 0, 0,
            raw =>
            {
                PpsRequest o = new RequestObject(raw).AsPps();
                return Output(o.Request, o.OutputVoltage, o.OperatingCurrent);
            },
            f => WithFlags(
                PpsRequest.Create(
                    f["object_position"], V(f["output_voltage_mv"]), A(f["operating_current_ma"])).Request,
                f),
            raw => new PpsRequest(raw).ToString()),

        new("avs_request", AvsRequest.Layout, 0, AvsFineSteps,
            raw =>
            {
                AvsRequest o = new RequestObject(raw).AsAvs();
                return Output(o.Request, o.OutputVoltage, o.OperatingCurrent);
            },
            f => WithFlags(
                AvsRequest.Create(
                    f["object_position"], V(f["output_voltage_mv"]), A(f["operating_current_ma"])).Request,
                f),
            raw => new AvsRequest(raw).ToString()),
    ];

    private static Dictionary<string, long> Output(RequestObject request, Voltage voltage, Current current)
    {
        Dictionary<string, long> fields = Common(request);
        fields["output_voltage_mv"] = voltage.Millivolts;
        fields["operating_current_ma"] = current.Milliamperes;
        return fields;
    }

    private static Dictionary<string, long> Common(RequestObject o) => new()
    {
        ["object_position"] = o.ObjectPosition, ["capability_mismatch"] = N(o.CapabilityMismatch),
        ["usb_communications_capable"] = N(o.UsbCommunicationsCapable), ["no_usb_suspend"] = N(o.NoUsbSuspend),
        ["unchunked_extended_messages"] = N(o.UnchunkedExtendedMessagesSupported), ["epr_capable"] = N(o.EprCapable),
    };

    private static uint WithFlags(RequestObject request, FieldReader f) => request
        .With(RequestObject.GiveBackField, f.Is("give_back"))
        .With(RequestObject.CapabilityMismatchField, f.Is("capability_mismatch"))
        .With(RequestObject.UsbCommunicationsCapableField, f.Is("usb_communications_capable"))
        .With(RequestObject.NoUsbSuspendField, f.Is("no_usb_suspend"))
        .With(RequestObject.UnchunkedField, f.Is("unchunked_extended_messages"))
        .With(RequestObject.EprCapableField, f.Is("epr_capable")).Raw;
}
