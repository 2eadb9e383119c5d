using Portwitness.PowerDelivery.Headers;

namespace Portwitness.Following.Contracts;

/// <summary>
/// Whose a message is. The captured port is the source that is under test; a power role swap turns the role bits of both
/// sides round (R3.2v1.1, 6.2.1.1.4, 6.3.10), and what its partner says is never held against it. A data role swap, and a
/// swap that is rejected or put off, change nothing.
/// </summary>
public sealed class PortRole
{
    private const ushort PowerRoleBit = 0x0100;

    private bool _swapped;
    private bool _asked;
    private int _readyToCome;
    private bool _isInDoubt;

    /// <summary>Whether the captured port has become the sink.</summary>
    public bool IsSwapped => _swapped;

    /// <summary>Whether every power role swap that the capture shows was refused, or was accepted and completed.</summary>
    public bool IsCertain => !_isInDoubt && !_asked && _readyToCome == 0;

    /// <summary>Whether a message on SOP is the partner's; where the role was not shown, all but a source's lists are.</summary>
    public bool IsPartners(MessageHeader header, ushort known) => (known & PowerRoleBit) != 0
        ? header.SourceOrCablePlug == _swapped
        : !header.Kind.IsSourceList;

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
            OnAnswer(kind);
        }
    }

    /// <summary>
    /// A Hard Reset ends a swap that was accepted and not completed: it leaves the roles as the connectors have them
    /// (R3.2v1.1, 6.8.3).
    /// </summary>
    public void OnHardReset()
    {
        _isInDoubt |= _asked || _readyToCome > 0;
        _swapped ^= _readyToCome > 0;
        (_asked, _readyToCome) = (false, 0);
    }

    /// <summary>The port was detached or attached: roles are those of its kind again.</summary>
    public void OnAttach() => (_swapped, _asked, _readyToCome, _isInDoubt) = (false, false, 0, false);

    // A swap is complete with PS_RDY of the old source and PS_RDY of the new one (R3.2v1.1, 6.3.10, 6.3.19).
    private void OnAnswer(MessageKind kind)
    {
        bool isRefused = kind == MessageKind.Reject || kind == MessageKind.Wait || kind == MessageKind.NotSupported;
        if (_asked && kind == MessageKind.Accept)
        {
            _swapped = !_swapped;
            _readyToCome = 2;
        }
        else if (_asked)
        {
            // The answer was not captured.
            _isInDoubt |= !isRefused;
        }
        else if (_readyToCome > 0)
        {
            _isInDoubt |= kind != MessageKind.PSRDY;
            _readyToCome = kind == MessageKind.PSRDY ? _readyToCome - 1 : 0;
        }

        _asked = false;
    }
}
