using Portwitness.PowerDelivery.Layout;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.PowerDelivery.Requests;
using Portwitness.PowerDelivery.Units;
using Portwitness.Text;

namespace Portwitness.Synthesis;

/// <summary>A request as a step writes it: "4 at 3.25A", "6 at 9V 3A", "3 at 45W", or a word. The object decides its shape.</summary>
/// <param name="Text">As written.</param>
/// <param name="Raw">The whole word, when it is given; the rest then means nothing.</param>
/// <param name="Position">The object's position.</param>
/// <param name="Millivolts">Voltage; null when not given.</param>
/// <param name="Milliamperes">Current; null when not given.</param>
/// <param name="Milliwatts">Power; null when not given.</param>
/// <param name="FlagBits">Bits of the flags.</param>
internal sealed record RequestWords(
    string Text, uint? Raw, int Position, int? Millivolts, int? Milliamperes, int? Milliwatts, uint FlagBits)
{
    private static readonly (string Word, BitField Flag)[] Flags =
    [
        ("mismatch", RequestObject.CapabilityMismatchField),
        ("usb-communications", RequestObject.UsbCommunicationsCapableField),
        ("no-suspend", RequestObject.NoUsbSuspendField),
        ("unchunked", RequestObject.UnchunkedField),
        ("epr", RequestObject.EprCapableField),
        ("give-back", RequestObject.GiveBackField),
    ];

    /// <summary>Reads the words after "request".</summary>
    public static RequestWords Read(ScriptWords words)
    {
        if (words.Try(AmountWords.Word) is { } raw)
        {
            return new RequestWords(words.Text, raw, 0, null, null, null, 0);
        }

        int position = words.ExpectNumber(15, "an object's position, or the whole request as 0x...");
        if (!words.Take("at"))
        {
            throw ScriptFault.Value($"\"at\" was expected after the position in \"{words.Text}\"");
        }

        (int? volts, int? amperes, int? watts) = (null, null, null);
        for (bool more = true; more;)
        {
            int? voltage = words.Try(AmountWords.Millivolts);
            int? current = words.Try(AmountWords.Milliamperes);
            int? power = words.Try(AmountWords.Milliwatts);
            (volts, amperes, watts) = (voltage ?? volts, current ?? amperes, power ?? watts);
            more = (voltage ?? current ?? power) is not null;
        }

        return new RequestWords(words.Text, null, position, volts, amperes, watts, FlagWords.Take(words, Flags, 0));
    }

    /// <summary>The word, in the shape that the selected object gives it.</summary>
    /// <exception cref="ScriptFault">The object needs other amounts, or they cannot be coded.</exception>
    public uint Encode(SourcePowerObject selected)
    {
        uint word = ScriptFault.Coding(Text, () => RequestObject.ShapeFor(selected.Kind) switch
        {
            RequestShape.FixedVariable => FixedVariable(Only(selected, null, Milliamperes, null).Current),
            RequestShape.Battery => Battery(Only(selected, null, null, Milliwatts).Power),
            RequestShape.Pps => Adjustable(selected, (v, c) => PpsRequest.Create(Position, v, c).Raw),
            RequestShape.Avs => Adjustable(selected, (v, c) => AvsRequest.Create(Position, v, c).Raw),
            _ => throw ScriptFault.Impossible(
                $"object {Position} is of a reserved kind; write the whole request as a word, 0x..."),
        });
        return word | FlagBits;
    }

    private uint FixedVariable(Current current) => FixedVariableRequest.Create(Position, current, current).Raw;

    private uint Battery(Power power) => BatteryRequest.Create(Position, power, power).Raw;

    private uint Adjustable(SourcePowerObject selected, Func<Voltage, Current, uint> create)
    {
        (Voltage voltage, Current current, _) = Only(selected, Millivolts, Milliamperes, null);
        return Millivolts is null ? throw Needs(selected) : create(voltage, current);
    }

    // The amounts that the object's request has, and no others.
    private (Voltage Voltage, Current Current, Power Power) Only(SourcePowerObject selected, int? volts, int? amperes, int? watts) =>
        volts != Millivolts || amperes != Milliamperes || watts != Milliwatts || (amperes ?? watts) is null
            ? throw Needs(selected)
            : (Voltage.FromMillivolts(volts ?? 0), Current.FromMilliamperes(amperes ?? 0), Power.FromMilliwatts(watts ?? 0));

    private ScriptFault Needs(SourcePowerObject selected) => ScriptFault.Impossible(
        $"object {Position} is {selected.Kind.ToText()}; its request has "
        + selected.Kind switch
        {
            PowerObjectKind.Fixed or PowerObjectKind.Variable => "a current and nothing else, for example 3A",
            PowerObjectKind.Battery => "a power and nothing else, for example 45W",
            _ => "a voltage and a current, for example 9V 3A",
        });
}
