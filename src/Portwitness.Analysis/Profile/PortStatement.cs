using Portwitness.Analysis.Evidence;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Analysis.Profile;

/// <summary>What the user states of a port.</summary>
/// <param name="Edition">Edition that the source follows; null when not stated.</param>
/// <param name="CaptiveCable">The cable is fixed to the product.</param>
/// <param name="PrintedPdp">PD power printed for this port alone; null when none is.</param>
/// <param name="Sharing">Whether the port can share power with others.</param>
internal readonly record struct PortStatement(Editions? Edition, bool CaptiveCable, Power? PrintedPdp, PowerSharing Sharing);
