using Portwitness.PowerDelivery.Layout;

namespace Portwitness.Captures.Input;

/// <summary>Finds the fields of a layout by the standard's names.</summary>
internal static class LayoutFields
{
    public static BitField Field(this BitLayout layout, string name)
    {
        foreach (BitField field in layout.Fields)
        {
            if (field.Name == name)
            {
                return field;
            }
        }

        throw new ArgumentException($"{layout.Name} has no field {name}.", nameof(name));
    }
}
