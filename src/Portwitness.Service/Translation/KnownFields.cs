using Portwitness.PowerDelivery.Layout;
using Portwitness.PowerDelivery.PowerData;

namespace Portwitness.Service.Translation;

/// <summary>Reads an object's fields by the names that its layout gives them.</summary>
/// <param name="offered">The object.</param>
/// <param name="layout">The layout of its kind, as a source or as a sink sends it.</param>
internal readonly struct KnownFields(OfferedObject offered, BitLayout layout)
{
    /// <summary>Hands over a field's value in its unit, when the layout has the field and every bit of it was shown.</summary>
    public void Read(string name, Action<int> set)
    {
        foreach (BitField field in layout.Fields)
        {
            if (field.Name == name && offered.Knows(field))
            {
                set(field.GetScaled(offered.Raw));
            }
        }
    }

    /// <summary>The same for a yes-or-no bit.</summary>
    public void ReadFlag(string name, Action<bool> set) => Read(name, value => set(value != 0));
}
