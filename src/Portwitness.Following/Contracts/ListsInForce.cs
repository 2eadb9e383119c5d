using System.Collections.Immutable;
using Portwitness.Following.States;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Messages;
using Portwitness.PowerDelivery.PowerData;

namespace Portwitness.Following.Contracts;

/// <summary>
/// Which list requests refer to: the list of the mode in force. A list of the other mode, as the answer to Get_Source_Cap
/// or EPR_Get_Source_Cap, changes nothing (R3.2v1.1, 6.4.10.3, 6.5.15).
/// </summary>
public sealed class ListsInForce(ConversationTrack track)
{
    private const byte EprGetSourceCap = 1;

    private ImmutableArray<OfferedObject> _spr = [];
    private ImmutableArray<OfferedObject> _epr = [];
    private ImmutableArray<OfferedObject> _latest = [];
    private bool _latestIsEpr;
    private bool _sprAsked;
    private bool _eprAsked;

    /// <summary>The list of the mode in force; while the mode is not known, the last of the kind that came unasked.</summary>
    public ImmutableArray<OfferedObject> Objects => track.Mode switch
    {
        PowerMode.Epr => _epr,
        PowerMode.Spr => _spr,
        _ => _latest,
    };

    /// <summary>A source's list was received.</summary>
    public void OnCapabilities(MessageKind kind, ImmutableArray<OfferedObject> objects)
    {
        bool epr = kind == MessageKind.EPRSourceCapabilities;
        bool asked = epr ? _eprAsked : _sprAsked;
        if (epr)
        {
            (_epr, _eprAsked) = (objects, false);
        }
        else
        {
            (_spr, _sprAsked) = (objects, false);
        }

        // An answer of the other kind says nothing of the mode.
        if (!asked || _latest.IsEmpty || epr == _latestIsEpr)
        {
            (_latest, _latestIsEpr) = (objects, epr);
        }
    }

    /// <summary>A message that may ask for a list.</summary>
    public void OnMessage(in MessageView view)
    {
        MessageKind kind = view.Header.Kind;
        if (kind == MessageKind.GetSourceCap)
        {
            _sprAsked = true;
        }
        else if (kind == MessageKind.ExtendedControl && view.Data is [EprGetSourceCap, ..])
        {
            _eprAsked = true;
        }
    }

    /// <summary>The port was detached: nothing is offered any more.</summary>
    public void OnDetach()
    {
        (_spr, _epr, _latest) = ([], [], []);
        (_sprAsked, _eprAsked) = (false, false);
    }
}
