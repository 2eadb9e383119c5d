using System.Collections.Immutable;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.PowerData;

namespace Portwitness.Analysis.Profile;

/// <summary>The capability lists of a capture in order; a list that comes again unchanged is counted.</summary>
internal sealed class AdvertisementLog
{
    /// <summary>Lists that are kept; later ones are counted.</summary>
    public const int Most = 1000;

    private readonly List<Advertisement> _lists = [];
    private readonly Dictionary<(MessageKind Kind, bool ByPartner), int> _latest = [];

    /// <summary>Lists beyond <see cref="Most"/>.</summary>
    public long Unlisted { get; private set; }

    /// <summary>The lists.</summary>
    public IReadOnlyList<Advertisement> Lists => _lists;

    /// <summary>How often the captured port was detached.</summary>
    public int Attach { get; private set; }

    /// <summary>The latest list of its kind, when this is the same once more; then it is counted.</summary>
    public Advertisement? Repeated(MessageKind kind, bool byPartner, ReadOnlySpan<OfferedObject> objects, ImmutableArray<string> inUse)
    {
        if (!_latest.TryGetValue((kind, byPartner), out int at))
        {
            return null;
        }

        Advertisement latest = _lists[at];
        if (!latest.Objects.AsSpan().SequenceEqual(objects) || !latest.InUse.AsSpan().SequenceEqual(inUse.AsSpan()))
        {
            return null;
        }

        return _lists[at] = latest with { Repeats = latest.Repeats + 1 };
    }

    /// <summary>Keeps a list. When there are too many, the last place goes to the newest; what stood there is given back.</summary>
    public Advertisement? Add(Advertisement list)
    {
        Advertisement? displaced = null;
        if (_lists.Count < Most)
        {
            _lists.Add(list);
        }
        else
        {
            Unlisted++;
            displaced = _lists[Most - 1];
            _lists[Most - 1] = list;
            _latest.Clear();
        }

        _latest[(list.Message, list.ByPartner)] = _lists.Count - 1;
        return displaced;
    }

    /// <summary>After a detach a list stands for itself, even if it is the same as before.</summary>
    public void OnDetach()
    {
        _latest.Clear();
        Attach++;
    }
}
