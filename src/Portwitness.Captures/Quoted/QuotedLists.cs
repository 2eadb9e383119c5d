using Portwitness.Captures.Offers;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.PowerData;

namespace Portwitness.Captures.Quoted;

/// <summary>Cuts the objects of a quoted text into lists, and puts each where its number says.</summary>
internal static class QuotedLists
{
    /// <summary>
    /// The lists. A new one begins where numbers begin anew, where 5 V stands again (only the first object is 5 V: R3.2v1.1, 6.4.1.2.1),
    /// and between objects without numbers where braces or words come between.
    /// </summary>
    public static IEnumerable<List<QuotedObject>> Cut(IEnumerable<QuotedObject> objects)
    {
        List<QuotedObject> list = [];
        foreach (QuotedObject one in objects)
        {
            if (list.Count > 0 && Begins(list[^1], one))
            {
                yield return list;
                list = [];
            }

            list.Add(one);
        }

        if (list.Count > 0)
        {
            yield return list;
        }
    }

    /// <summary>Objects in their places; what is cut keeps a place of which nothing is known.</summary>
    public static CodedOffer[] Place(List<QuotedObject> list)
    {
        if (list[0].Index is not int first)
        {
            return [.. IsSafe5V(list[0].Coded) ? [] : (ReadOnlySpan<CodedOffer>)[default], .. list.Select(static one => one.Coded)];
        }

        // People count from 0 or from 1; a list whose 1 is 5 V, or that has no 0 and begins later, counts from 1.
        bool fromZero = list[0].CountsFromZero || first == 0 || (first == 1 && !IsSafe5V(list[0].Coded));
        int offset = fromZero ? 0 : 1;
        CodedOffer[] placed = new CodedOffer[list[^1].Index!.Value - offset + 1];
        foreach (QuotedObject one in list)
        {
            placed[one.Index!.Value - offset] = one.Coded;
        }

        return placed;
    }

    /// <summary>Whether it is surely a fixed supply of 5 V.</summary>
    public static bool IsSafe5V(CodedOffer coded) => IsFixed(coded) && new SourcePowerObject(coded.Word).AsFixed().Voltage == Electrical.Safe5V;

    /// <summary>Hands a list on.</summary>
    public static void HandTo(ICaptureSink sink, long line, CodedOffer[] placed)
    {
        int firstOfEpr = Array.FindIndex(placed, ListedObjects.IsOfEpr);
        bool isEpr = firstOfEpr >= 0;
        CodedOffer[] spr = isEpr ? [.. placed.Take(Math.Min(firstOfEpr, MessageLimits.MaxSprObjects))] : placed;
        CodedOffer[] epr = isEpr ? [.. placed.Skip(spr.Length)] : [];

        // Positions up to 7 that were not quoted are not known to be empty.
        spr = isEpr ? [.. spr, .. new CodedOffer[MessageLimits.MaxSprObjects - spr.Length]] : spr;
        ListedObjects.HandTo(sink, line, spr, epr, isEpr, isWhole: false);
    }

    private static bool Begins(QuotedObject last, QuotedObject one) =>
        (last.Index is null) != (one.Index is null) || last.CountsFromZero != one.CountsFromZero
        || (one.Index is int index ? index <= last.Index : one.Section != last.Section || IsSafe5V(one.Coded));

    private static bool IsFixed(CodedOffer coded) =>
        (coded.Known & FixedSourceSupply.VoltageField.Mask) == FixedSourceSupply.VoltageField.Mask
        && coded.Known >> 30 == 0b11 && new SourcePowerObject(coded.Word).Kind == PowerObjectKind.Fixed;
}
