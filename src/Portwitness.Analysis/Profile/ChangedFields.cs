using System.Collections.Immutable;
using System.Globalization;
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
    public static string Text(ImmutableArray<OfferedObject> before, ImmutableArray<OfferedObject> now) =>
        string.Join("; ", before.Zip(now).Select(static pair => Text(pair.First, pair.Second)).Where(static text => text.Length > 0))
            is { Length: > 0 } fields ? fields : "bits that one of the lists does not show";

    private static string Text(OfferedObject before, OfferedObject now)
    {
        uint changed = (before.Raw ^ now.Raw) & before.Known & now.Known;
        if (changed == 0)
        {
            return "";
        }

        // What selects the layout is the same in both, or it would have been in the objects' texts.
        IEnumerable<string> fields = now.AsSource().Layout.Fields.Where(field => (field.Mask & changed) != 0)
            .Select(field => $"{field.Name} ({Bits(field)}) {Number(field.Get(before.Raw))}, now {Number(field.Get(now.Raw))}");
        return $"object {Number((uint)now.Position)}: {string.Join(", ", fields)}";
    }

    private static string Bits(BitField field) => field.Width == 1
        ? string.Create(CultureInfo.InvariantCulture, $"bit {field.Low}")
        : string.Create(CultureInfo.InvariantCulture, $"bits {field.High} to {field.Low}");

    private static string Number(uint value) => value.ToString(CultureInfo.InvariantCulture);
}
