using System.Text;
using Portwitness.Text;

namespace Portwitness.Captures.Offers;

/// <summary>What a piece of an offer is.</summary>
internal enum OfferTokenKind
{
    /// <summary>Letters.</summary>
    Word,

    /// <summary>A number without a unit.</summary>
    Number,

    /// <summary>A voltage.</summary>
    Volts,

    /// <summary>A current.</summary>
    Amperes,

    /// <summary>A power.</summary>
    Watts,

    /// <summary>What stands between the ends of a range: a hyphen, a dash, a tilde, "to" or "..".</summary>
    Range,

    /// <summary>A colon, a bracket and the like: it ends a number that counts.</summary>
    Mark,
}

/// <summary>One piece of an offer.</summary>
/// <param name="Kind">What it is.</param>
/// <param name="Text">As written, folded to ASCII.</param>
/// <param name="Thousandths">Of an amount: mV, mA or mW; null when it is not a whole number of them, or too large.</param>
/// <param name="Decimals">Of an amount in V, A or W: digits behind the point.</param>
internal readonly record struct OfferToken(OfferTokenKind Kind, string Text, int? Thousandths = null, int Decimals = 0)
{
    private const int Finest = 3;

    // Longest first: "mA" before "A".
    private static readonly (string Unit, OfferTokenKind Kind)[] Units =
    [
        ("mV", OfferTokenKind.Volts), ("mA", OfferTokenKind.Amperes), ("mW", OfferTokenKind.Watts),
        ("V", OfferTokenKind.Volts), ("A", OfferTokenKind.Amperes), ("W", OfferTokenKind.Watts),
    ];

    /// <summary>Takes a text apart. Signs that only stand between volts and amperes (⎓ = @ / × *) count as blanks.</summary>
    public static List<OfferToken> Of(string text)
    {
        string folded = Fold(text);
        List<OfferToken> tokens = [];
        for (int at = 0; at < folded.Length;)
        {
            char first = folded[at];
            int start = at;
            if (char.IsAsciiDigit(first))
            {
                at = EndOfNumber(folded, at);
                string number = folded[start..at].Replace(',', '.');
                int blanks = at;
                while (blanks < folded.Length && folded[blanks] == ' ')
                {
                    blanks++;
                }

                tokens.Add(WithUnit(number, folded, blanks, ref at));
            }
            else if (char.IsAsciiLetter(first))
            {
                at = EndOf(folded, at, static character => char.IsAsciiLetter(character) || character == '_');
                at = JoinHyphened(folded, start, at);
                string word = folded[start..at];
                tokens.Add(new OfferToken(IsTo(word) ? OfferTokenKind.Range : OfferTokenKind.Word, word));
            }
            else
            {
                at = EndOf(folded, at, character => character == first);
                if (first is '-' || folded[start..at] == "..")
                {
                    tokens.Add(new OfferToken(OfferTokenKind.Range, folded[start..at]));
                }
                else if (first != ' ')
                {
                    tokens.Add(new OfferToken(OfferTokenKind.Mark, folded[start..at]));
                }
            }
        }

        return tokens;
    }

    private static bool IsTo(string word) => word.Equals("to", StringComparison.OrdinalIgnoreCase);

    // "1.25", "1,25"; a point at the end is none of its decimals.
    private static int EndOfNumber(string text, int at)
    {
        int end = EndOf(text, at, char.IsAsciiDigit);
        bool isDecimal = end + 1 < text.Length && text[end] is '.' or ',' && char.IsAsciiDigit(text[end + 1]);
        return isDecimal ? EndOf(text, end + 1, char.IsAsciiDigit) : end;
    }

    // "dual-role-power" is one word.
    private static int JoinHyphened(string text, int start, int end)
    {
        while (end - start > 1 && end + 1 < text.Length && text[end] == '-' && char.IsAsciiLetter(text[end + 1]))
        {
            end = EndOf(text, end + 1, char.IsAsciiLetter);
        }

        return end;
    }

    private static int EndOf(string text, int at, Func<char, bool> belongs)
    {
        while (at < text.Length && belongs(text[at]))
        {
            at++;
        }

        return at;
    }

    private static OfferToken WithUnit(string number, string text, int unitAt, ref int at)
    {
        foreach ((string unit, OfferTokenKind kind) in Units)
        {
            int end = unitAt + unit.Length;
            bool isUnit = end <= text.Length && string.Compare(text, unitAt, unit, 0, unit.Length, StringComparison.OrdinalIgnoreCase) == 0
                && (end == text.Length || !char.IsAsciiLetter(text[end]) || IsTimes(text, end));
            if (isUnit)
            {
                at = end;
                bool isThousandth = unit.Length > 1;
                return new OfferToken(
                    kind, number + unit, Read(number, isThousandth ? 0 : Finest),
                    isThousandth ? Finest : number.IndexOf('.', StringComparison.Ordinal) is >= 0 and int point ? number.Length - point - 1 : 0);
            }
        }

        return new OfferToken(OfferTokenKind.Number, number);
    }

    // The x of "5Vx3A".
    private static bool IsTimes(string text, int at) =>
        text[at] is 'x' or 'X' && at + 1 < text.Length && (char.IsAsciiDigit(text[at + 1]) || text[at + 1] == ' ');

    private static int? Read(string number, int power) =>
        DecimalText.Exact(number, power) is >= 0 and <= AmountWords.MaxThousandths and long value ? (int)value : null;

    private static string Fold(string text)
    {
        StringBuilder folded = new(text.Length);
        foreach (char character in text)
        {
            folded.Append(Fold(character));
        }

        return folded.ToString();
    }

    private static char Fold(char character) => character switch
    {
        >= '\uFF01' and <= '\uFF5E' => Fold((char)(character - 0xFEE0)),
        '~' or '\u2010' or '\u2011' or '\u2012' or '\u2013' or '\u2014' or '\u2015' or '\u2212' or '\u223C' or '\u301C' => '-',
        '\u2393' or '=' or '@' or '/' or '\u00D7' or '*' or '\u00B7' or '|' or '\t' or '\u00A0' or '\u3000' or '\u200B' or '\u2009'
            or '\u202F' or '\u2002' or '\u2003' => ' ',
        '\u2026' => '-',
        _ => character,
    };
}
