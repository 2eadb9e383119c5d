using System.Collections.Frozen;
using System.Globalization;
using System.Text.RegularExpressions;

namespace Portwitness.Product.Signalling;

/// <summary>The ways in which people write what a port answers to: "BC 1.2 DCP", "USB-C 3A", "D+ 2.7V D- 2.7V", "not UFCS".</summary>
internal static partial class SignallingPhrases
{
    private static readonly string[] Denials = ["no-", "no ", "not ", "without "];

    // Letters, digits and points alone are compared.
    private static readonly FrozenDictionary<string, string> Words = new Dictionary<string, string>
    {
        ["bc1.2"] = "bc1.2", ["usbbc1.2"] = "bc1.2", ["batterycharging1.2"] = "bc1.2",
        ["sdp"] = "bc1.2-sdp", ["bc1.2sdp"] = "bc1.2-sdp", ["usbbc1.2sdp"] = "bc1.2-sdp", ["standarddownstreamport"] = "bc1.2-sdp",
        ["cdp"] = "bc1.2-cdp", ["bc1.2cdp"] = "bc1.2-cdp", ["usbbc1.2cdp"] = "bc1.2-cdp", ["chargingdownstreamport"] = "bc1.2-cdp",
        ["dcp"] = "bc1.2-dcp", ["bc1.2dcp"] = "bc1.2-dcp", ["usbbc1.2dcp"] = "bc1.2-dcp", ["dedicatedchargingport"] = "bc1.2-dcp",
        ["typec"] = "type-c", ["usbtypec"] = "type-c",
        ["typecdefault"] = "type-c-default", ["typecdefaultusb"] = "type-c-default", ["rpdefault"] = "type-c-default",
        ["typec1.5a"] = "type-c-1.5a", ["usbtypec1.5a"] = "type-c-1.5a", ["usbc1.5a"] = "type-c-1.5a", ["rp1.5a"] = "type-c-1.5a", ["cc1.5a"] = "type-c-1.5a",
        ["typec3a"] = "type-c-3a", ["usbtypec3a"] = "type-c-3a", ["usbc3a"] = "type-c-3a", ["rp3a"] = "type-c-3a", ["cc3a"] = "type-c-3a",
        ["typec3.0a"] = "type-c-3a", ["usbtypec3.0a"] = "type-c-3a", ["usbc3.0a"] = "type-c-3a", ["rp3.0a"] = "type-c-3a", ["cc3.0a"] = "type-c-3a",
        ["ufcs"] = "ufcs", ["ufcs1.0"] = "ufcs",
        ["ydt1591"] = "ydt1591",
        ["divider"] = "divider", ["dividermode"] = "divider",
    }.ToFrozenDictionary();

    /// <summary>Takes "no", "not" and "without" off.</summary>
    public static (string Text, bool Denied) Denial(string text)
    {
        string? denial = Array.Find(Denials, word => text.StartsWith(word, StringComparison.OrdinalIgnoreCase));
        return denial is null ? (text, false) : (text[denial.Length..].Trim(), true);
    }

    /// <summary>The word for what is meant; the text itself where that is not a public standard.</summary>
    public static string WordOf(string text)
    {
        string folded = string.Concat(text.Select(static letter => letter is >= '\uFF01' and <= '\uFF5E' ? (char)(letter - 0xFEE0) : letter));
        if (Bias.Match(folded) is { Success: true } volts)
        {
            return string.Create(CultureInfo.InvariantCulture, $"divider-{volts.Groups["plus"].Value}V-{volts.Groups["minus"].Value}V");
        }

        string key = string.Concat(folded.Where(static letter => char.IsLetterOrDigit(letter) || letter == '.')).ToLowerInvariant();
        return Words.GetValueOrDefault(key, text);
    }

    // "2.7V/2.7V", "divider 2.7V, 2.7V", "D+ 2.7 V D- 2.0 V", "D+=2.7V, D-=2.7V".
    [GeneratedRegex(
        @"^(?:divider[ :]*(?:mode[ :]*)?|(?<named>D\+[ =:]*))?(?<plus>[0-9](?:\.[0-9]{1,3})?) ?V[ ,;/]*(?(named)D[-\u2212\u2013][ =:]*)(?<minus>[0-9](?:\.[0-9]{1,3})?) ?V$",
        RegexOptions.IgnoreCase | RegexOptions.CultureInvariant, 1000)]
    private static partial Regex Bias { get; }
}
