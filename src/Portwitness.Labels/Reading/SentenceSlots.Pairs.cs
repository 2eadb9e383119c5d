namespace Portwitness.Labels;

/// <content>Which power is whose.</content>
internal sealed partial class SentenceSlots
{
    // Each port with its power; null where it is not clear whose is whose.
    private (Slot Port, Slot Power)[]? Pairs() => Linked() ?? InOrder();

    // "drops to 45W at C1 and 20W at C2": each power has its port right behind it.
    private (Slot Port, Slot Power)[]? Linked()
    {
        int first = _slots.FindIndex(static slot => slot.IsPower);
        List<(Slot Port, Slot Power)> pairs = [];
        for (int i = first; i < _slots.Count; i += 2)
        {
            if (i + 1 == _slots.Count || !_slots[i].IsPower || !_slots[i + 1].IsLinked)
            {
                return null;
            }

            pairs.Add((_slots[i + 1], _slots[i]));
        }

        return AreSaidAgain(_slots[..first], pairs) && (first != 1 || pairs.Count > 1) ? [.. pairs] : null;
    }

    // The ports that are named in front are those of the pairs, or one of them, or none is.
    private static bool AreSaidAgain(List<Slot> front, List<(Slot Port, Slot Power)> pairs) =>
        AreDistinct([.. pairs.Select(static pair => pair.Port)]) && AreDistinct(front) && (front.Count < 2
            || front.Count == pairs.Count)
        && front.TrueForAll(slot => pairs.Exists(pair => pair.Port.Port == slot.Port));

    private (Slot Port, Slot Power)[]? InOrder()
    {
        List<Slot> waiting = [];
        List<(Slot, Slot)> pairs = [];
        for (int i = 0; i < _slots.Count; i++)
        {
            if (!_slots[i].IsPower)
            {
                waiting.Add(_slots[i]);
            }
            else if (waiting.Count > 0 && pairs.Count < waiting.Count)
            {
                pairs.Add((waiting[pairs.Count], _slots[i]));
            }
            else
            {
                return null;
            }
        }

        int ports = waiting.Count;
        bool areInTurn = _slots.Take(ports).All(static slot => !slot.IsPower);
        if (pairs.Count == ports && (areInTurn || (IsAlternating(0) && !_isInTurn)))
        {
            return AreDistinct(waiting) ? [.. pairs] : null;
        }

        // "C1, C2 and A: C1 45 W, C2 15 W, A 10 W": those in front are said again.
        int alternating = _slots.FindIndex(static slot => slot.IsPower) - 1;
        if (alternating < 1 || !IsAlternating(alternating))
        {
            return null;
        }

        List<Slot> front = _slots[..alternating];
        List<(Slot Port, Slot Power)> behind = [];
        for (int i = alternating; i < _slots.Count; i += 2)
        {
            behind.Add((_slots[i], _slots[i + 1]));
        }

        return !AreSaidAgain(front, behind) ? null : front.Count == 1 ? [.. behind]
            : [.. behind.Select(pair => (front.Find(slot => slot.Port == pair.Port.Port)!, pair.Power))];
    }

    private bool IsAlternating(int from)
    {
        for (int i = from; i < _slots.Count; i++)
        {
            if (_slots[i].IsPower != ((i - from) % 2 == 1))
            {
                return false;
            }
        }

        return (_slots.Count - from) % 2 == 0;
    }

    private static bool AreDistinct(List<Slot> ports) => ports.DistinctBy(static slot => slot.Port).Count() == ports.Count;
}
