using System.Collections.Immutable;
using Portwitness.Following.States;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.PowerData;

namespace Portwitness.Following.Contracts;

/// <summary>
/// Which list requests refer to: the list of the mode in force. A list of the other mode, as the answer to Get_Source_Cap
/// or EPR_Get_Source_Cap, changes nothing (R3.2v1.1, 6.4.10.3, 6.5.15).
/// </summary>
public sealed class ListsInForce(ConversationTrack track)
{
    private ImmutableArray<OfferedObject> _spr = [];
    private ImmutableArray<OfferedObject> _epr = [];
    private ImmutableArray<OfferedObject> _latest = [];
    private bool _latestIsEpr;

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
        if (epr)
        {
            _epr = objects;
        }
        else
        {
            _spr = objects;
        }

        if (!track.ListMayAnswer || _latest.IsEmpty || epr == _latestIsEpr)
        {
            (_latest, _latestIsEpr) = (objects, epr);
        }
    }

    /// <summary>The port was detached: nothing is offered any more.</summary>
    public void OnDetach() => (_spr, _epr, _latest) = ([], [], []);
}
