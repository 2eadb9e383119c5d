using Portwitness.Analysis.Profile;
using Portwitness.PowerDelivery.Layout;

namespace Portwitness.Service.Translation;

/// <summary>Reads an object's fields by the names that its layout gives them.</summary>
internal static class KnownFields
{
    /// <summary>Hands over a field's value in its unit, when every bit of the field was shown.</summary>
    public static void Read(this OfferedObject offered, BitLayout layout, string name, Action<int> set)
    {
        BitField field = layout.Fields.First(candidate => candidate.Name == name);
        if (offered.Knows(field))
        {
            set(field.GetScaled(offered.Raw));
        }
    }
}
