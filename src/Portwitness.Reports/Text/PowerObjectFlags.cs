using System.Globalization;
using Portwitness.Contracts.V1;

namespace Portwitness.Reports.Text;

/// <summary>What an object says besides its amounts: set flags by name, a flag that was not seen with "?".</summary>
internal static class PowerObjectFlags
{
    public static IEnumerable<string> Of(PowerObject offered) => offered.KindCase switch
    {
        // The flags of a fixed supply mean something in the first object only (R3.2v1.1, 6.4.1.2.1).
        PowerObject.KindOneofCase.Fixed => Fixed(offered.Fixed, offered.Position == 1, !offered.HasKnownBits),
        PowerObject.KindOneofCase.Pps => Flag(offered.Pps.HasPowerLimited, offered.Pps.PowerLimited, "power limited", true),
        PowerObject.KindOneofCase.SprAvs => Peak(offered.SprAvs.HasPeakCurrentCode, offered.SprAvs.PeakCurrentCode),
        PowerObject.KindOneofCase.EprAvs => Peak(offered.EprAvs.HasPeakCurrentCode, offered.EprAvs.PeakCurrentCode),
        _ => [],
    };

    private static IEnumerable<string> Fixed(FixedSupply supply, bool first, bool allSeen) =>
    [
        .. Flag(supply.HasDualRolePower, supply.DualRolePower, "dual-role power", first && !allSeen),
        .. Flag(supply.HasUsbSuspendSupported, supply.UsbSuspendSupported, "USB suspend", first && !allSeen),
        .. Flag(supply.HasHigherCapability, supply.HigherCapability, "higher capability", false),
        .. Flag(supply.HasUnconstrainedPower, supply.UnconstrainedPower, "unconstrained power", first && !allSeen),
        .. Flag(supply.HasUsbCommunicationsCapable, supply.UsbCommunicationsCapable, "USB communications", first && !allSeen),
        .. Flag(supply.HasDualRoleData, supply.DualRoleData, "dual-role data", first && !allSeen),
        .. Flag(supply.HasUnchunkedExtendedMessages, supply.UnchunkedExtendedMessages, "unchunked", first && !allSeen),
        .. Flag(supply.HasEprCapable, supply.EprCapable, "EPR capable", first && !allSeen),
        .. FastRoleSwap(supply),
        .. supply.HasPeakCurrentCode || !allSeen ? Peak(supply.HasPeakCurrentCode, supply.PeakCurrentCode) : [],
    ];

    private static IEnumerable<string> Flag(bool seen, bool set, string name, bool askWhenUnseen) =>
        seen ? set ? [name] : [] : askWhenUnseen ? [name + " ?"] : [];

    private static IEnumerable<string> Peak(bool seen, int code) => seen
        ? code == 0 ? [] : [string.Create(CultureInfo.InvariantCulture, $"peak current code {code}")]
        : ["peak current ?"];

    private static IEnumerable<string> FastRoleSwap(FixedSupply supply) =>
        supply is { HasFastRoleSwapCode: true, FastRoleSwapCode: not 0 }
            ? [string.Create(CultureInfo.InvariantCulture, $"fast role swap code {supply.FastRoleSwapCode}")]
            : [];
}
