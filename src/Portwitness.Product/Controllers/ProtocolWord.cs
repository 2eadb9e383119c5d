using System.Globalization;
using Portwitness.PowerDelivery.PowerData;

namespace Portwitness.Product.Controllers;

/// <summary>What a word of a label or a data sheet means, as far as USB PD goes.</summary>
public enum ProtocolMeaning
{
    /// <summary>USB PD in some revision.</summary>
    PowerDelivery,

    /// <summary>Programmable power supply.</summary>
    Pps,

    /// <summary>Adjustable voltage supply, SPR or EPR.</summary>
    Avs,

    /// <summary>Extended power range.</summary>
    Epr,

    /// <summary>Another protocol, under the name that is written.</summary>
    Other,
}

/// <summary>A protocol's name as a label or a data sheet writes it: "PD3.1", "PPS", "UFCS".</summary>
/// <param name="Text">As written.</param>
/// <param name="Meaning">What it means.</param>
/// <param name="Revision">Of USB PD, in tenths; null when none is written.</param>
public sealed record ProtocolWord(string Text, ProtocolMeaning Meaning, int? Revision)
{
    /// <summary>Since then PPS is known (R3.0), and AVS and EPR (R3.1), in tenths.</summary>
    private const int Revision30 = 30;

    private const int Revision31 = 31;

    /// <summary>Reads a name; any text is one.</summary>
    public static ProtocolWord Read(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        string plain = string.Concat(text.ToUpperInvariant().Where(static c => char.IsLetterOrDigit(c) || c == '.'));
        string name = plain.StartsWith("USB", StringComparison.Ordinal) && plain.Length > 3 ? plain[3..] : plain;
        string letters = name.TrimEnd('.', '0', '1', '2', '3', '4', '5', '6', '7', '8', '9');
        return letters switch
        {
            "PD" or "PDREV" or "PDR" => new(text, ProtocolMeaning.PowerDelivery, RevisionOf(name[letters.Length..])),
            "PPS" => new(text, ProtocolMeaning.Pps, null),
            "AVS" or "SPRAVS" or "EPRAVS" => new(text, ProtocolMeaning.Avs, null),
            "EPR" => new(text, ProtocolMeaning.Epr, null),
            "SPR" => new(text, ProtocolMeaning.PowerDelivery, null),
            _ => new(text, ProtocolMeaning.Other, null),
        };
    }

    /// <summary>
    /// Whether these protocols have another: true where one of them is it, false where none can be, and null where a revision of USB PD that knows
    /// it is named, which need not have it.
    /// </summary>
    public static bool? Have(IReadOnlyCollection<ProtocolWord> protocols, ProtocolWord wanted)
    {
        ArgumentNullException.ThrowIfNull(protocols);
        ArgumentNullException.ThrowIfNull(wanted);
        if (protocols.Any(one => one.Is(wanted)))
        {
            return true;
        }

        int since = wanted.Meaning == ProtocolMeaning.Pps ? Revision30 : Revision31;
        return wanted.Meaning is ProtocolMeaning.Pps or ProtocolMeaning.Avs or ProtocolMeaning.Epr
            && protocols.Any(one => one.Meaning == ProtocolMeaning.PowerDelivery && (one.Revision is null || one.Revision >= since))
            ? null : false;
    }

    /// <summary>The protocol of an object that is offered beside fixed supplies; null for these.</summary>
    public static ProtocolWord? Of(PowerObjectKind kind) => kind switch
    {
        PowerObjectKind.Pps => Read("PPS"),
        PowerObjectKind.SprAvs or PowerObjectKind.EprAvs => Read("AVS"),
        _ => null,
    };

    // PPS, AVS and EPR are protocols of USB PD.
    private bool Is(ProtocolWord wanted) => wanted.Meaning switch
    {
        ProtocolMeaning.Other => Meaning == ProtocolMeaning.Other && Plain(Text) == Plain(wanted.Text),
        ProtocolMeaning.PowerDelivery => Meaning != ProtocolMeaning.Other,
        _ => Meaning == wanted.Meaning,
    };

    private static string Plain(string text) => string.Concat(text.ToUpperInvariant().Where(char.IsLetterOrDigit));

    private static int? RevisionOf(string digits) =>
        decimal.TryParse(digits, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out decimal revision) && revision < 10
            ? (int)(revision * 10) : null;
}
