using Portwitness.Captures.Input;
using Portwitness.PowerDelivery.Layout;

namespace Portwitness.Captures.KernelLog;

/// <summary>
/// The line that a kernel prints before it sends a Request, back into those fields of the request that it shows:
/// position, operating current or power, output voltage of an APDO, and whether there is a mismatch. The rest of the
/// word, the maximum operating current among it, is unknown.
/// </summary>
/// <remarks>Fields: R3.2v1.1, Tables 6.23 to 6.26. The line counts objects from 0, the request from 1.</remarks>
internal static class RequestLine
{
    private static readonly BitField Position = new("Object Position", 31, 28);
    private static readonly BitField Mismatch = BitField.Flag("Capability Mismatch", 26);
    private static readonly BitField OperatingCurrent = new("Operating Current", 19, 10, FieldUnit.Milliamperes, 10);
    private static readonly BitField OperatingPower = new("Operating Power", 19, 10, FieldUnit.Milliwatts, 250);
    private static readonly BitField PpsVoltage = new("Output Voltage", 20, 9, FieldUnit.Millivolts, 20);
    private static readonly BitField AvsVoltage = new("Output Voltage", 20, 9, FieldUnit.Millivolts, 25);
    private static readonly BitField ApdoCurrent = new("Operating Current", 6, 0, FieldUnit.Milliamperes, 50);

    /// <summary>Reads the text behind "Requesting "; false when it is none of the kernel's.</summary>
    public static bool TryRead(ref LogCursor cursor, out ShownWord word)
    {
        word = default;
        bool apdo = cursor.Literal("APDO "u8);
        bool avs = apdo && cursor.Literal("SPR AVS "u8);
        if ((!apdo && !cursor.Literal("PDO "u8)) || !cursor.Number(out int index) || !word.Set(Position, index + 1)
            || !cursor.Literal(": "u8) || !cursor.Number(out int millivolts) || !cursor.Literal(" mV, "u8)
            || !cursor.Number(out int amount))
        {
            return false;
        }

        // A value between two steps is rounded by the kernel; which way is not in the log, so the field stays unknown.
        if (apdo)
        {
            word.Set(avs ? AvsVoltage : PpsVoltage, millivolts);
            word.Set(ApdoCurrent, amount);
            return cursor.Literal(" mA"u8) && End(ref cursor, ref word, showsMismatch: false);
        }

        bool power = cursor.Literal(" mW"u8);
        word.Set(power ? OperatingPower : OperatingCurrent, amount);
        return (power || cursor.Literal(" mA"u8)) && End(ref cursor, ref word, showsMismatch: true);
    }

    private static bool End(ref LogCursor cursor, ref ShownWord word, bool showsMismatch)
    {
        bool mismatch = cursor.Literal(" [mismatch]"u8);
        if (mismatch || showsMismatch)
        {
            word.SetFlag(Mismatch, mismatch);
        }

        return cursor.AtEnd;
    }
}
