using Portwitness.PowerDelivery.Headers;

namespace Portwitness.Following.States;

/// <summary>
/// Whose a message is. The captured port is the source that is under test; a power role swap turns the role bits of both
/// sides round (R3.2v1.1, 6.2.1.1.4, 6.3.10), and what its partner says is never held against it.
/// </summary>
public sealed class PortRole(ConversationTrack track)
{
    private const ushort PowerRoleBit = 0x0100;

    /// <summary>Whether the captured port has become the sink; where the capture does not tell, as it was last known.</summary>
    public bool IsSwapped => track.RolesSwapped;

    /// <summary>Whether the capture shows which roles the ports have, and no swap is under way.</summary>
    public bool IsCertain => track.States is { RolesSwapped: not null, Phase: not (Phase.SwapAsked or Phase.Swapping) };

    /// <summary>Whether a message on SOP is the partner's; where the role was not shown, all but a source's lists are.</summary>
    public bool IsPartners(MessageHeader header, ushort known) => (known & PowerRoleBit) != 0
        ? header.SourceOrCablePlug == IsSwapped
        : !header.Kind.IsSourceList;
}
