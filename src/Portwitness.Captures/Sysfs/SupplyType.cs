using System.Text;
using Portwitness.Captures.Input;
using Portwitness.PowerDelivery.Layout;
using Portwitness.PowerDelivery.PowerData;

namespace Portwitness.Captures.Sysfs;

/// <summary>
/// A type of object as the kernel names it, and which field each of its attributes shows. What has no attribute is
/// never known: of a fixed supply of a source EPR Capable, and reserved bits of all.
/// </summary>
/// <remarks>
/// Names: the kernel's description of its class usb_power_delivery, and drivers/usb/typec/pd.c from 6.0 on; SPR AVS
/// since October 2025. Position 1 alone shows the flags of a fixed supply; peak_current is there since October 2023.
/// </remarks>
internal sealed class SupplyType
{
    private static readonly SupplyType[] OfSource =
    [
        new("fixed_supply", FixedSourceSupply.Layout, 0, null,
            ("voltage", "Voltage"), ("maximum_current", "Maximum Current"), ("peak_current", "Peak Current"),
            ("dual_role_power", "Dual-Role Power"), ("usb_suspend_supported", "USB Suspend Supported"),
            ("unconstrained_power", "Unconstrained Power"), ("usb_communication_capable", "USB Communications Capable"),
            ("dual_role_data", "Dual-Role Data"),
            ("unchunked_extended_messages_supported", "Unchunked Extended Messages Supported")),
        new("battery", BatterySourceSupply.Layout, 1, null,
            ("maximum_voltage", "Maximum Voltage"), ("minimum_voltage", "Minimum Voltage"),
            ("maximum_power", "Maximum Allowable Power")),
        new("variable_supply", VariableSourceSupply.Layout, 2, null,
            ("maximum_voltage", "Maximum Voltage"), ("minimum_voltage", "Minimum Voltage"),
            ("maximum_current", "Maximum Current")),
        new("programmable_supply", PpsSourceSupply.Layout, 3, 0,
            ("maximum_voltage", "Maximum Voltage"), ("minimum_voltage", "Minimum Voltage"),
            ("maximum_current", "Maximum Current"), ("pps_power_limited", "PPS Power Limited")),
        new(SprAvs, SprAvsSourceSupply.Layout, 3, 2,
            ("maximum_current_9V_to_15V", "Maximum Current 9 V to 15 V"),
            ("maximum_current_15V_to_20V", "Maximum Current 15 V to 20 V"), ("peak_current", "Peak Current")),
    ];

    // A sink's unchunked_extended_messages_supported is left out: bit 24, which it shows, belongs to
    // fast_role_swap_current in sink objects (R3.2v1.1, Table 6.17).
    private static readonly SupplyType[] OfSink =
    [
        new("fixed_supply", FixedSinkSupply.Layout, 0, null,
            ("voltage", "Voltage"), ("operational_current", "Operational Current"), ("dual_role_power", "Dual-Role Power"),
            ("higher_capability", "Higher Capability"), ("unconstrained_power", "Unconstrained Power"),
            ("usb_communication_capable", "USB Communications Capable"), ("dual_role_data", "Dual-Role Data"),
            ("fast_role_swap_current", "Fast Role Swap required USB Type-C Current")),
        new("battery", BatterySinkSupply.Layout, 1, null,
            ("maximum_voltage", "Maximum Voltage"), ("minimum_voltage", "Minimum Voltage"),
            ("operational_power", "Operational Power")),
        new("variable_supply", VariableSinkSupply.Layout, 2, null,
            ("maximum_voltage", "Maximum Voltage"), ("minimum_voltage", "Minimum Voltage"),
            ("operational_current", "Operational Current")),
        new("programmable_supply", PpsSinkSupply.Layout, 3, 0,
            ("maximum_voltage", "Maximum Voltage"), ("minimum_voltage", "Minimum Voltage"),
            ("maximum_current", "Maximum Current")),
        new(SprAvs, SprAvsSinkSupply.Layout, 3, 2,
            ("maximum_current_9V_to_15V", "Maximum Current 9 V to 15 V"),
            ("maximum_current_15V_to_20V", "Maximum Current 15 V to 20 V")),
    ];

    private const string SprAvs = "spr_adjustable_voltage_supply";

    private readonly string _name;
    private readonly (string Attribute, BitField Field)[] _attributes;

    private SupplyType(string name, BitLayout layout, int type, int? subtype, params (string Attribute, string Field)[] attributes)
    {
        _name = name;
        _attributes = [.. attributes.Select(pair => (pair.Attribute, layout.Field(pair.Field)))];
        ShownWord word = default;
        word.Set(layout.Field("Type"), type);
        if (subtype is int value)
        {
            word.Set(layout.Field("APDO Subtype"), value);
        }

        TypeOnly = word;
    }

    /// <summary>A word of this type, of which nothing else is known.</summary>
    public ShownWord TypeOnly { get; }

    /// <summary>Whether a kernel that shows this type shows every type that an SPR list may hold (R3.2v1.1, Tables 6.7 and 6.8).</summary>
    public bool ProvesAllAreShown => _name == SprAvs;

    /// <summary>Finds a type by its name; null when the kernel was not known to have it.</summary>
    public static SupplyType? Find(bool isSource, ReadOnlySpan<byte> name)
    {
        foreach (SupplyType type in isSource ? OfSource : OfSink)
        {
            if (Ascii.Equals(name, type._name))
            {
                return type;
            }
        }

        return null;
    }

    /// <summary>The field that an attribute shows; false for other files of the directory.</summary>
    public bool TryFindField(ReadOnlySpan<byte> attribute, out BitField field)
    {
        foreach ((string name, BitField shown) in _attributes)
        {
            if (Ascii.Equals(attribute, name))
            {
                field = shown;
                return true;
            }
        }

        field = default;
        return false;
    }
}
