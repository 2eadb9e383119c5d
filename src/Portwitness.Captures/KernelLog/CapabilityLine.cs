using Portwitness.Captures.Input;
using Portwitness.PowerDelivery.Layout;
using Portwitness.PowerDelivery.PowerData;

namespace Portwitness.Captures.KernelLog;

/// <summary>
/// The text behind "PDO 0: type 0, ", back into the object's word. Not printed by any kernel: of a fixed supply
/// Unchunked Extended Messages Supported, EPR Capable and Peak Current, of a PPS Power Limited, and reserved bits.
/// </summary>
/// <remarks>Forms: the kernel's tcpm_log_source_caps, before and after the patch of October 2025 that names the APDOs.</remarks>
internal static class CapabilityLine
{
    // R, S, H, U, D, E; S and H are printed for the same bit.
    private static readonly (byte Letter, BitField Flag)[] Letters =
    [
        ((byte)'R', FixedSourceSupply.DualRolePowerField),
        ((byte)'S', FixedSourceSupply.UsbSuspendSupportedField),
        ((byte)'H', FixedSourceSupply.UsbSuspendSupportedField),
        ((byte)'U', FixedSourceSupply.UsbCommunicationsCapableField),
        ((byte)'D', FixedSourceSupply.DualRoleDataField),
        ((byte)'E', FixedSourceSupply.UnconstrainedPowerField),
    ];

    /// <summary>Reads the text; false when it is none of the kernel's, the cursor then being where it stops making sense.</summary>
    public static bool TryRead(ref LogCursor cursor, int type, out ShownWord word) => TryReadStart(ref cursor, type, out word) && cursor.AtEnd;

    /// <summary>Reads the text, whatever stands behind it.</summary>
    public static bool TryReadStart(ref LogCursor cursor, int type, out ShownWord word)
    {
        word = default;
        if (type > 3 || !word.Set(SourcePowerObject.ReservedLayout.Field("Type"), type))
        {
            return false;
        }

        return type switch
        {
            0 => Fixed(ref cursor, ref word),
            1 => Range(ref cursor, ref word, BatterySourceSupply.Layout, "Maximum Allowable Power", " mW"u8),
            2 => Range(ref cursor, ref word, VariableSourceSupply.Layout, "Maximum Current", " mA"u8),
            _ => Augmented(ref cursor, ref word),
        };
    }

    private static bool Fixed(ref LogCursor cursor, ref ShownWord word)
    {
        if (!Amount(ref cursor, ref word, FixedSourceSupply.VoltageField) || !cursor.Literal(" mV, "u8)
            || !Amount(ref cursor, ref word, FixedSourceSupply.MaximumCurrentField) || !cursor.Literal(" mA ["u8))
        {
            return false;
        }

        foreach ((byte letter, BitField flag) in Letters)
        {
            bool set = cursor.Literal([letter]);
            word.SetFlag(flag, set || flag.IsSet(word.Value));
        }

        return cursor.Literal("]"u8);
    }

    private static bool Range(
        ref LogCursor cursor, ref ShownWord word, BitLayout layout, string amount, ReadOnlySpan<byte> unit) =>
        Amount(ref cursor, ref word, layout.Field("Minimum Voltage")) && cursor.Literal("-"u8)
        && Amount(ref cursor, ref word, layout.Field("Maximum Voltage")) && cursor.Literal(" mV, "u8)
        && Amount(ref cursor, ref word, layout.Field(amount)) && cursor.Literal(unit);

    private static bool Augmented(ref LogCursor cursor, ref ShownWord word)
    {
        if (cursor.Literal("undefined APDO"u8))
        {
            return true;
        }

        if (cursor.Literal("EPR AVS "u8))
        {
            return Subtype(ref word, EprAvsSourceSupply.Layout, 1) && EprAvs(ref cursor, ref word);
        }

        if (cursor.Literal("SPR AVS 9-15 V: "u8))
        {
            BitLayout layout = SprAvsSourceSupply.Layout;
            return Subtype(ref word, layout, 2)
                && Amount(ref cursor, ref word, layout.Field("Maximum Current 9 V to 15 V"))
                && cursor.Literal(" mA 15-20 V: "u8)
                && Amount(ref cursor, ref word, layout.Field("Maximum Current 15 V to 20 V"))
                && cursor.Literal(" mA peak_current: "u8) && Amount(ref cursor, ref word, layout.Field("Peak Current"));
        }

        cursor.Literal("PPS "u8);
        return Subtype(ref word, PpsSourceSupply.Layout, 0)
            && Range(ref cursor, ref word, PpsSourceSupply.Layout, "Maximum Current", " mA"u8);
    }

    private static bool EprAvs(ref LogCursor cursor, ref ShownWord word)
    {
        BitLayout layout = EprAvsSourceSupply.Layout;
        BitField minimumField = layout.Field("Minimum Voltage");
        if (!Amount(ref cursor, ref word, minimumField) || !cursor.Literal("-"u8) || !cursor.Number(out int maximum)
            || !cursor.Literal(" mV "u8) || !cursor.Number(out int watts)
            || !word.Set(layout.Field("PDP"), (int)Math.Min(1000L * watts, int.MaxValue))
            || !cursor.Literal(" W peak_current: "u8) || !Amount(ref cursor, ref word, layout.Field("Peak Current")))
        {
            return false;
        }

        // Kernels that print the minimum in both places are about: an equal maximum says nothing.
        return maximum == minimumField.GetScaled(word.Value) || word.Set(layout.Field("Maximum Voltage"), maximum);
    }

    private static bool Subtype(ref ShownWord word, BitLayout layout, int subtype) =>
        word.Set(layout.Field("APDO Subtype"), subtype);

    private static bool Amount(ref LogCursor cursor, ref ShownWord word, BitField field) =>
        cursor.Number(out int amount) && word.Set(field, amount);
}
