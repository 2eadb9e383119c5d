using System.Collections.Immutable;
using Portwitness.PowerDelivery.Messages;

namespace Portwitness.Analysis.Profile;

/// <summary>The capability lists of a capture in order; a list that comes again unchanged is counted.</summary>
internal sealed class AdvertisementLog
{
    /// <summary>Lists that are kept; later ones are counted.</summary>
    public const int Most = 1000;

    private readonly List<Advertisement> _lists = [];
    private readonly Dictionary<MessageKind, int> _latest = [];

    /// <summary>Lists beyond <see cref="Most"/>.</summary>
    public long Unlisted { get; private set; }

    /// <summary>The lists.</summary>
    public IReadOnlyList<Advertisement> Lists => _lists;

    /// <summary>Whether a list is the latest of its kind once more; then it is counted.</summary>
    public bool Repeats(MessageKind kind, ReadOnlySpan<OfferedObject> objects, ImmutableArray<string> inUse)
    {
        if (!_latest.TryGetValue(kind, out int at))
        {
            return false;
        }

        Advertisement latest = _lists[at];
        if (!latest.Objects.AsSpan().SequenceEqual(objects) || !latest.InUse.AsSpan().SequenceEqual(inUse.AsSpan()))
        {
            return false;
        }

        _lists[at] = latest with { Repeats = latest.Repeats + 1 };
        return true;
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

        _latest[list.Message] = _lists.Count - 1;
        return displaced;
    }

    /// <summary>After a detach a list stands for itself, even if it is the same as before.</summary>
    public void OnDetach() => _latest.Clear();
}
