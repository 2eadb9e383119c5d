using System.Buffers.Text;
using Portwitness.Captures.Input;
using Portwitness.PowerDelivery.Layout;

namespace Portwitness.Captures.Sysfs;

/// <summary>One object, put together from the attributes of its directory. What is not believed stays unknown.</summary>
internal sealed class ShownObject(FaultLog faults)
{
    private SupplyType? _type;
    private bool _begun;
    private bool _unusable;
    private ShownWord _word;

    /// <summary>The word; all of it is unknown when its type is.</summary>
    public ShownWord Word => _unusable ? default : _word;

    /// <summary>Whether the kernel that wrote it is one that leaves no type of object out.</summary>
    public bool ProvesAllAreShown => !_unusable && _type is { ProvesAllAreShown: true };

    /// <summary>Takes one attribute.</summary>
    public void AddLine(long line, in SysfsLine shown)
    {
        SupplyType? type = SupplyType.Find(shown.IsSource, shown.Type);
        if (!_begun)
        {
            (_begun, _type, _unusable, _word) = (true, type, type is null, type?.TypeOnly ?? default);
            if (type is null)
            {
                faults.Report(line, 0, FaultCodes.SysfsTypeUnknown, FaultText.SysfsTypeUnknown(shown.Path, shown.Type));
            }
        }
        else if (type != _type && !_unusable)
        {
            _unusable = true;
            faults.Report(line, 0, FaultCodes.SysfsPositionInvalid, FaultText.SysfsTwoTypes(shown.Path));
        }

        // A line of NULs is what tar put behind the value.
        if (!_unusable && type is not null && type.TryFindField(shown.Attribute, out BitField field)
            && !(shown.Value.IsEmpty && shown.IsPadding))
        {
            Set(line, shown, field);
        }
    }

    private void Set(long line, in SysfsLine shown, BitField field)
    {
        ShownWord after = _word;
        if (!TryReadAmount(shown.Value, field, out int amount) || !after.Set(field, amount))
        {
            faults.Report(line, 0, FaultCodes.SysfsValueInvalid, FaultText.SysfsValueInvalid(shown.Path, shown.Value, field));
        }
        else if ((_word.Known & field.Mask) != 0)
        {
            if (after.Value != _word.Value)
            {
                faults.Report(line, 0, FaultCodes.SysfsValueRepeated, FaultText.SysfsValueRepeated(shown.Path));
            }
        }
        else
        {
            _word = after;
        }
    }

    // "5000mV", "3000mA", "60000mW"; bare numbers for flags and codes.
    private static bool TryReadAmount(ReadOnlySpan<byte> value, BitField field, out int amount)
    {
        ReadOnlySpan<byte> unit = field.Unit switch
        {
            FieldUnit.Millivolts => "mV"u8,
            FieldUnit.Milliamperes => "mA"u8,
            FieldUnit.Milliwatts => "mW"u8,
            _ => [],
        };
        return Utf8Parser.TryParse(value, out amount, out int length) && char.IsAsciiDigit((char)value[0])
            && value[length..].SequenceEqual(unit);
    }
}
