using System.Globalization;
using System.Text.RegularExpressions;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Product.Signalling;

/// <summary>What a port may answer to besides USB PD.</summary>
public enum SignallingKind
{
    /// <summary>USB Battery Charging 1.2: SDP, CDP or DCP.</summary>
    BatteryCharging,

    /// <summary>Current that Rp shows on CC (USB Type-C).</summary>
    TypeC,

    /// <summary>YD/T 1591, of the Chinese telecommunication industry.</summary>
    Ydt1591,

    /// <summary>UFCS, T/TAF 083.</summary>
    Ufcs,

    /// <summary>A fixed bias of D+ and D−.</summary>
    Divider,

    /// <summary>A scheme without a public standard, under the name that label or user give.</summary>
    NonPublic,
}

/// <summary>How well a current limit is known.</summary>
public enum LimitBasis
{
    /// <summary>There is none, or it is not known.</summary>
    None,

    /// <summary>By a text that was read.</summary>
    Confirmed,

    /// <summary>Common practice, no source: it raises cautions at most.</summary>
    CommonPractice,
}

/// <summary>One thing that a port was seen to answer to, or not to (captures/FORMAT.md, "Other signalling").</summary>
public sealed partial record SignallingWord
{
    private SignallingWord(string text, SignallingKind kind) => (Text, Kind) = (text, kind);

    /// <summary>The word of captures/FORMAT.md where there is one, otherwise as written, without "no-".</summary>
    public string Text { get; }

    /// <summary>What it is.</summary>
    public SignallingKind Kind { get; }

    /// <summary>The port was asked and does not answer.</summary>
    public bool Denied { get; private init; }

    /// <summary>The most that a device may draw at 5 V by it; null where none is known.</summary>
    public Current? Limit { get; private init; }

    /// <summary>How well that is known.</summary>
    public LimitBasis Basis { get; private init; }

    /// <summary>Where the limit is from; empty without one.</summary>
    public string Source { get; private init; } = "";

    /// <summary>Words of one subject exclude each other: a port has one Type-C current, and is one kind of BC 1.2 port.</summary>
    public string Subject => Kind == SignallingKind.NonPublic ? Text.ToUpperInvariant() : Kind.ToString();

    /// <summary>For people, for example "bc1.2-dcp" or "no ufcs".</summary>
    public override string ToString() => Denied ? $"no {Text}" : Text;

    /// <summary>
    /// Whether it is of a protocol as a label or a data sheet names it: "UFCS" is the standard's name; any other name is compared as it is written,
    /// letters and digits only.
    /// </summary>
    public bool IsOf(string protocol) => Kind switch
    {
        SignallingKind.Ufcs => Plain(protocol).StartsWith("UFCS", StringComparison.Ordinal),
        SignallingKind.Ydt1591 => Plain(protocol).Contains("1591", StringComparison.Ordinal),
        SignallingKind.NonPublic => Plain(protocol) == Plain(Text),
        SignallingKind.BatteryCharging => Plain(protocol) is "BC12" or "BC" || Plain(protocol) == Plain(Text),
        _ => false,
    };

    /// <summary>Reads a word, or what people write for one; null for none.</summary>
    public static SignallingWord? Read(string word)
    {
        ArgumentNullException.ThrowIfNull(word);
        (string text, bool denied) = SignallingPhrases.Denial(word.Trim());
        SignallingWord known = Known(text);
        known = known.Kind == SignallingKind.NonPublic && text.Length > 0 ? Known(SignallingPhrases.WordOf(text)) : known;
        return text.Length == 0 ? null : known with { Denied = denied };
    }

    private static string Plain(string text) => string.Concat(text.ToUpperInvariant().Where(char.IsLetterOrDigit));

    // Limits: USB BC 1.2 and USB 3 as restated by makers of port controllers (IDEV_CHG 1.5 A; SDP 500 mA, USB 3 900 mA), USB Type-C
    // currents. What a bias of the data lines stands for is from no standard.
    private static SignallingWord Known(string text) => text.ToLowerInvariant() switch
    {
        "bc1.2" => new(text, SignallingKind.BatteryCharging),
        "bc1.2-sdp" => Limited(text, SignallingKind.BatteryCharging, 900, "USB 2.0: 500 mA when configured, USB 3.x: 900 mA"),
        "bc1.2-cdp" or "bc1.2-dcp" => Limited(text, SignallingKind.BatteryCharging, 1500, "BC 1.2, IDEV_CHG: a device draws 1.5 A at most"),
        "type-c" => new(text, SignallingKind.TypeC),
        "type-c-default" => Limited(text, SignallingKind.TypeC, 900, "USB Type-C: default USB current"),
        "type-c-1.5a" => Limited(text, SignallingKind.TypeC, 1500, "USB Type-C: 1.5 A"),
        "type-c-3a" or "type-c-3.0a" => Limited(text, SignallingKind.TypeC, 3000, "USB Type-C: 3.0 A"),
        "ydt1591" or "yd/t1591" or "yd/t-1591" => new(text, SignallingKind.Ydt1591),
        "ufcs" => new(text, SignallingKind.Ufcs),
        "divider" => new(text, SignallingKind.Divider),
        _ when DividerVolts().Match(text) is { Success: true } volts => Divider(text, Tenths(volts.Groups[1].Value), Tenths(volts.Groups[2].Value)),
        _ => new(text, SignallingKind.NonPublic),
    };

    private static SignallingWord Limited(string text, SignallingKind kind, int milliamperes, string source) =>
        new(text, kind) { Limit = Current.FromMilliamperes(milliamperes), Basis = LimitBasis.Confirmed, Source = source };

    private static SignallingWord Divider(string text, int plus, int minus)
    {
        int? milliamperes = (plus, minus) switch
        {
            (27, 27) => 2400,
            (27, 20) => 2100,
            (20, 27) => 1000,
            (12, 12) => 2000,
            _ => null,
        };
        return new SignallingWord(text, SignallingKind.Divider) with
        {
            Limit = milliamperes is { } limit ? Current.FromMilliamperes(limit) : null,
            Basis = milliamperes is null ? LimitBasis.None : LimitBasis.CommonPractice,
            Source = milliamperes is null ? "" : "common practice, no source",
        };
    }

    // Resistors are not exact: 2.65 V to 2.75 V are 2.7 V.
    private static int Tenths(string volts) =>
        (int)decimal.Round(decimal.Parse(volts, CultureInfo.InvariantCulture) * 10, MidpointRounding.AwayFromZero);

    [GeneratedRegex("^divider-([0-9](?:\\.[0-9]{1,3})?)v-([0-9](?:\\.[0-9]{1,3})?)v$", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex DividerVolts();
}
