using System.Collections.Frozen;

namespace Portwitness.Labels;

/// <summary>What a word or phrase of a label means.</summary>
internal enum Term
{
    None,
    Input,
    Output,
    Maximum,
    UpTo,
    Total,
    MaximumOutput,
    Or,
    To,
    At,
    Direct,
    Alternating,
    Usb,
    ConnectorType,
    Port,
    PortName,
    PowerDelivery,
    Programmable,
    OpenProtocol,
    Battery,
    RatedCapacity,
    Energy,
    NominalVoltage,
    Typical,
    Times,
    Remark,
}

/// <summary>
/// The words that labels use. To teach the reader a phrase, add it to the row of its meaning: case does not matter, words are
/// separated by one space, and the longest phrase wins. For a new language add rows with its code. A phrase belongs here
/// only if it can mean nothing else on a label: what is not known stays unread, which is safe; what is read wrongly is not.
/// Of protocols only those of published standards are listed; any other name is kept as printed.
/// </summary>
internal static class Vocabulary
{
    internal static readonly (string Language, Term Meaning, string[] Phrases)[] Table =
    [
        ("en", Term.Input, ["input", "in", "rated input", "input rating"]),
        ("en", Term.Output, ["output", "out", "rated output", "output rating"]),
        ("en", Term.Maximum, ["max", "maximum"]),
        ("en", Term.UpTo, ["up to"]),
        ("en", Term.Total, ["total", "total output", "total power", "total output power", "total max", "max total", "max total output"]),
        ("en", Term.MaximumOutput, ["max output", "maximum output", "max output power", "maximum output power", "max power",
                                    "maximum power", "output power", "rated power", "rated output power"]),
        ("en", Term.Or, ["or"]),
        ("en", Term.To, ["to"]),
        ("en", Term.At, ["at"]),
        ("en", Term.Direct, ["dc", "d.c"]),
        ("en", Term.Alternating, ["ac", "a.c"]),
        ("en", Term.Usb, ["usb"]),
        ("en", Term.ConnectorType, ["type"]),
        ("en", Term.Port, ["port"]),
        ("en", Term.PortName, ["micro", "micro usb", "micro-usb", "micro-b", "micro usb-b", "usb micro-b"]),
        ("en", Term.PowerDelivery, ["pd", "usb pd", "usb-pd", "spr", "epr"]),
        ("en", Term.Programmable, ["pps", "avs"]),
        ("en", Term.OpenProtocol, ["ufcs"]),
        ("en", Term.Battery, ["battery", "cell", "cells", "capacity", "battery capacity", "cell capacity", "typical capacity",
                              "battery cell", "li-ion battery", "li-ion cell", "li-ion cells", "li-ion", "li-polymer battery",
                              "li-polymer cell", "li-polymer", "lithium battery", "lithium ion battery", "lithium-ion battery"]),
        ("en", Term.RatedCapacity, ["rated capacity", "rated", "rated output capacity", "output capacity"]),
        ("en", Term.Energy, ["energy", "battery energy", "rated energy", "nominal energy"]),
        ("en", Term.NominalVoltage, ["nominal voltage", "battery voltage", "cell voltage"]),
        ("en", Term.Typical, ["typ", "typical"]),
        ("en", Term.Times, ["x"]),
        ("en", Term.Remark, ["model", "model no", "model number", "item", "item no", "serial", "serial no", "serial number",
                             "sn", "pn", "sku", "made in", "designed in", "date code", "lot", "batch"]),
    ];

    private static readonly FrozenDictionary<string, Term>.AlternateLookup<ReadOnlySpan<char>> Meanings =
        Table.SelectMany(static row => row.Phrases, static (row, phrase) => KeyValuePair.Create(phrase, row.Meaning))
            .ToFrozenDictionary(StringComparer.OrdinalIgnoreCase).GetAlternateLookup<ReadOnlySpan<char>>();

    private static readonly FrozenSet<string>.AlternateLookup<ReadOnlySpan<char>> PhraseStarts =
        Table.SelectMany(static row => row.Phrases).Where(static phrase => phrase.Contains(' '))
            .Select(static phrase => phrase[..phrase.IndexOf(' ')])
            .ToFrozenSet(StringComparer.OrdinalIgnoreCase).GetAlternateLookup<ReadOnlySpan<char>>();

    /// <summary>Words in the longest phrase.</summary>
    public static int LongestPhrase { get; } =
        Table.SelectMany(static row => row.Phrases).Max(static phrase => phrase.Count(static c => c == ' ') + 1);

    /// <summary>What the word or phrase means; <see cref="Term.None"/> when it is not listed.</summary>
    public static Term Find(ReadOnlySpan<char> phrase) => Meanings.TryGetValue(phrase, out Term term) ? term : Term.None;

    /// <summary>Whether a phrase of several words begins with this word.</summary>
    public static bool StartsPhrase(ReadOnlySpan<char> word) => PhraseStarts.Contains(word);
}
