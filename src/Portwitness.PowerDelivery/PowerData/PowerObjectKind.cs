using Portwitness.PowerDelivery.Layout;

namespace Portwitness.PowerDelivery.PowerData;

/// <summary>The kinds of Power Data Object (R3.2v1.1, 6.4.1, Tables 6.7 and 6.8).</summary>
/// <remarks>
/// Tables 6.11, 6.12, 6.18 and 6.19 of R3.2v1.1 print the type bits of Battery and Variable the other way round
/// than Table 6.7 and the text of the same clauses; Battery is 01 and Variable is 10.
/// </remarks>
public enum PowerObjectKind
{
    /// <summary>Fixed supply, type 00.</summary>
    Fixed,

    /// <summary>Battery supply, type 01.</summary>
    Battery,

    /// <summary>Variable, non-battery supply, type 10.</summary>
    Variable,

    /// <summary>SPR programmable power supply, type 11, subtype 00.</summary>
    Pps,

    /// <summary>EPR adjustable voltage supply, type 11, subtype 01.</summary>
    EprAvs,

    /// <summary>SPR adjustable voltage supply, type 11, subtype 10.</summary>
    SprAvs,

    /// <summary>Type 11, subtype 11: reserved.</summary>
    Reserved,
}

/// <summary>Type bits of Power Data Objects, shared by sources and sinks.</summary>
public static class PowerObjectKinds
{
    internal static readonly BitField TypeField = new BitField("Type", 31, 30)
        .Codes((0, "fixed"), (1, "battery"), (2, "variable"), (3, "augmented"));

    internal static readonly BitField SubtypeField = new BitField("APDO Subtype", 29, 28)
        .Codes((0, "SPR PPS"), (1, "EPR AVS"), (2, "SPR AVS"));

    internal static readonly Func<uint, string?> PeakCurrent = raw => raw switch
    {
        // Tables 6.10 and 6.16, in percent of the operating current.
        0 => "the operating current, or as Source_Capabilities_Extended says",
        1 => "150 % for 1 ms, 125 % for 2 ms, 110 % for 10 ms",
        2 => "200 % for 1 ms, 150 % for 2 ms, 125 % for 10 ms",
        _ => "200 % for 1 ms, 175 % for 2 ms, 150 % for 10 ms",
    };

    /// <summary>The kind that the top bits of a word say.</summary>
    public static PowerObjectKind Of(uint raw) => (raw >> 30, (raw >> 28) & 3) switch
    {
        (0, _) => PowerObjectKind.Fixed,
        (1, _) => PowerObjectKind.Battery,
        (2, _) => PowerObjectKind.Variable,
        (_, 0) => PowerObjectKind.Pps,
        (_, 1) => PowerObjectKind.EprAvs,
        (_, 2) => PowerObjectKind.SprAvs,
        _ => PowerObjectKind.Reserved,
    };

    /// <summary>Whether the bits that say the kind were shown: the type, and the subtype where there is one.</summary>
    /// <param name="raw">The word.</param>
    /// <param name="known">One bit for each bit of the word that was shown.</param>
    public static bool IsShown(uint raw, uint known) => (known & TypeField.Mask) == TypeField.Mask
        && (TypeField.Get(raw) != TypeField.Maximum || (known & SubtypeField.Mask) == SubtypeField.Mask);

    /// <summary>A word of zeroes but for the type bits of a kind.</summary>
    internal static uint Word(PowerObjectKind kind) => kind switch
    {
        PowerObjectKind.Fixed => 0,
        PowerObjectKind.Battery => 1u << 30,
        PowerObjectKind.Variable => 2u << 30,
        PowerObjectKind.Pps => 0xCu << 28,
        PowerObjectKind.EprAvs => 0xDu << 28,
        PowerObjectKind.SprAvs => 0xEu << 28,
        _ => 0xFu << 28,
    };

    /// <summary>Whether the kind is augmented (APDO), which R2.0 does not know.</summary>
    public static bool IsAugmented(this PowerObjectKind kind) => kind >= PowerObjectKind.Pps;

    /// <summary>In words, for example "SPR AVS".</summary>
    public static string ToText(this PowerObjectKind kind) => kind switch
    {
        PowerObjectKind.Fixed => "fixed",
        PowerObjectKind.Battery => "battery",
        PowerObjectKind.Variable => "variable",
        PowerObjectKind.Pps => "PPS",
        PowerObjectKind.EprAvs => "EPR AVS",
        PowerObjectKind.SprAvs => "SPR AVS",
        _ => "reserved",
    };
}
