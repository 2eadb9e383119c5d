using Portwitness.PowerDelivery.Layout;

namespace Portwitness.Captures.Input;

/// <summary>A 32-bit object of which only some fields were shown.</summary>
internal record struct ShownWord
{
    /// <summary>The word; bits that were not shown are zero.</summary>
    public uint Value { get; private set; }

    /// <summary>The bits that were shown.</summary>
    public uint Known { get; private set; }

    /// <summary>Sets a field to a value in its unit; false when the field cannot hold that value.</summary>
    public bool Set(BitField field, int amount)
    {
        if (amount % field.Scale != 0 || amount / field.Scale > field.Maximum)
        {
            return false;
        }

        Value = field.Set(Value, (uint)(amount / field.Scale));
        Known |= field.Mask;
        return true;
    }

    /// <summary>Sets a flag, which is known either way.</summary>
    public void SetFlag(BitField flag, bool value)
    {
        Value = flag.SetFlag(Value, value);
        Known |= flag.Mask;
    }
}
