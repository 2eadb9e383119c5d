using Portwitness.Analysis.Profile;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Messages;

namespace Portwitness.Analysis.Conversation;

/// <summary>
/// Whose a message is. The captured port is the source that is under test; a power role swap turns the role bits of both
/// sides round (R3.2v1.1, 6.2.1.1.4, 6.3.10), and what its partner says is never held against it.
/// </summary>
internal sealed class PortRole
{
    private const ushort PowerRoleBit = 0x0100;

    private bool _swapped;
    private bool _asked;

    /// <summary>Whether the captured port has become the sink.</summary>
    public bool IsSwapped => _swapped;

    /// <summary>Whether a message on SOP is the partner's; where the role was not shown, all but a source's lists are.</summary>
    public bool IsPartners(MessageHeader header, ushort known) => (known & PowerRoleBit) != 0
        ? header.SourceOrCablePlug == _swapped
        : !CapabilityList.IsOfSource(header.Kind);

    /// <summary>A message on SOP.</summary>
    public void OnMessage(MessageHeader header)
    {
        MessageKind kind = header.Kind;
        if (kind == MessageKind.PRSwap || kind == MessageKind.FRSwap)
        {
            _asked = true;
        }
        else if (kind != MessageKind.GoodCRC)
        {
            _swapped ^= _asked && kind == MessageKind.Accept;
            _asked = false;
        }
    }

    /// <summary>The port was detached or attached: roles are those of its kind again.</summary>
    public void OnAttach() => (_swapped, _asked) = (false, false);
}
