using System.Collections.Immutable;
using Portwitness.Analysis.Phrases;
using Portwitness.PowerDelivery.Layout;
using Portwitness.PowerDelivery.PowerData;

namespace Portwitness.Analysis.Profile;

/// <summary>Which fields of a source's objects differ between two lists, by the names that the standard gives them.</summary>
internal static class ChangedFields
{
    /// <summary>
    /// "object 1: Unchunked Extended Messages Supported (bit 24) 0, now 1". Objects are compared by their position, and bits that
    /// one of the lists does not show are left out.
    /// </summary>
    public static Phrase Text(ImmutableArray<OfferedObject> before, ImmutableArray<OfferedObject> now) =>
        Phrase.Join("; ", before.Zip(now).Select(static pair => Text(pair.First, pair.Second)).Where(static text => !text.IsEmpty))
            is { IsEmpty: false } fields ? fields : "bits that one of the lists does not show";

    private static Phrase Text(OfferedObject before, OfferedObject now)
    {
        uint changed = (before.Raw ^ now.Raw) & before.Known & now.Known;
        if (changed == 0)
        {
            return Phrase.Empty;
        }

        // What selects the layout is the same in both, or it would have been in the objects' texts.
        IEnumerable<Phrase> fields = now.AsSource().Layout.Fields.Where(field => (field.Mask & changed) != 0)
            .Select(field => Phrase.Of($"{field.Name} ({Bits(field)}) {(long)field.Get(before.Raw)}, now {(long)field.Get(now.Raw)}"));
        return $"object {now.Position}: {Phrase.Join(", ", fields)}";
    }

    private static Phrase Bits(BitField field) => field.Width == 1 ? Phrase.Of($"bit {field.Low}") : $"bits {field.High} to {field.Low}";
}
