using Portwitness.PowerDelivery.Layout;

namespace Portwitness.PowerDelivery.ExtendedBlocks;

/// <summary>The temperature status that Status and PPS_Status share (R3.2v1.1, Tables 6.55 and 6.62).</summary>
internal static class TemperatureStatus
{
    internal static readonly BitField Field = new BitField("Temperature status", 2, 1)
        .Codes((0, "not supported"), (1, "normal"), (2, "warning"), (3, "over temperature"));
}
