using System.Globalization;
using System.Text.RegularExpressions;
using CsCheck;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Labels.Tests;

/// <summary>No word of a label is lost: what is not in a reading is unread. Labels are edited at random, always in the same way.</summary>
public sealed class CoverageTests
{
    private const int Edits = 5000;

    private const string Alphabet = "0123456789.,+-/=~⎓:;()|• \n\t\u00A0ABCVWHhmaxPSUtol–＝Ａ５%±*😀\u0301\uFEFF";

    private static readonly Regex DecimalComma = new("(?<=[0-9]),(?=[0-9])");

    private static readonly Regex PrintedPower = new("([0-9]+(?:\\.[0-9]+)?|\\.[0-9]+)[\\s\uFEFF\u200B]*(m?)(?:W|Вт)", RegexOptions.IgnoreCase);

    // "PD 3.0": the number is the standard's version.
    private static readonly Regex Version = new("(?:PD|SPR|EPR)[\\s\uFEFF\u200B]*[0-9.]+", RegexOptions.IgnoreCase);

    // "2 ports:" is a condition.
    private static readonly Regex Condition = new("(?<![0-9.,])[1-8](?=[\\s\uFEFF\u200B–-]*(?:per )?(?:口|孔|埠|ポート|台|포트|구|port|USB))", RegexOptions.IgnoreCase);

    // "※1", "(1)" at either end of a line, "1) when": a note's number; "USB-A (1):", that of a port.
    private static readonly Regex NoteNumber = new("(?<=[\u203B\u2020\u2021])[0-9]{1,2}|^\\([0-9]\\)(?= )|\\([0-9]\\)$|\\([0-9]\\)(?=[\\s\uFEFF\u200B]*[:\uFF1A])|^[0-9](?=\\) )", RegexOptions.Multiline);

    private static readonly Regex BareNumber = new("(?<![0-9.])[0-9]{1,6}(?:\\.[0-9]{1,3})?(?![0-9.])");

    // "2 x USB-A", "USB-A*2".
    private static readonly Regex PortCount = new("[0-9]{1,2}[\\s\uFEFF\u200B]*[x*\u00D7](?=[\\s\uFEFF\u200B]*[A-Z])|(?<=[A-Z][\\s\uFEFF\u200B]*)[*\u00D7][\\s\uFEFF\u200B]*[0-9]{1,2}", RegexOptions.IgnoreCase);

    // "C1/2": the second port has the first one's letter.
    private static readonly Regex PortList = new("([AC])[0-9]{1,2}(?:[\\s\uFEFF\u200B]*[/,&+、和][\\s\uFEFF\u200B]*([0-9]{1,2}))+", RegexOptions.IgnoreCase);

    // "Output 1 (USB-C)" is C1 or C, and "1+2:" speaks of two such ports.
    private static readonly Regex PortNumber = new(
        "(?<![0-9.,])[0-9]{1,2}(?=[\\s\uFEFF\u200B]*(?:[(\uFF08:\uFF1A]|USB|Type|[AC][0-9]|\\+[^:\uFF1A\n]*[:\uFF1A]))");

    [Fact]
    public void EditedLabel_HasEachCharacterInOneToken() => EachEdited(static text =>
    {
        int[] tokens = new int[text.Length];
        foreach (Token token in Tokenizer.Read(FoldedText.Of(text)))
        {
            for (int i = token.Start; i < token.End; i++)
            {
                tokens[i]++;
            }
        }

        for (int i = 0; i < text.Length; i++)
        {
            tokens[i].Should().BeInRange(IsVisible(text[i]) ? 1 : 0, 1, "character {0} of «{1}» is in one token", i, text);
        }
    });

    [Fact]
    public void EditedLabel_HasUnreadWordsVerbatimInOrderAtTheirPlace() => EachEdited(static text =>
    {
        int end = 0;
        foreach (UnreadSpan unread in LabelReader.Read(text).Unread)
        {
            int start = IndexOf(text, unread.At, unread.Text);
            start.Should().BeGreaterThanOrEqualTo(end, "spans of «{0}» do not overlap", text);
            text.Substring(start, unread.Text.Length).Should().Be(unread.Text);
            unread.Text.Trim().Should().Be(unread.Text).And.NotContainAny("\n", "\r");
            end = start + unread.Text.Length;
        }
    });

    // A digit is never only punctuation: it is part of a value, of a port's name or of a protocol's version, or unread.
    [Fact]
    public void EditedLabel_HasEachDigitInAReadingOrUnread() => EachEdited(static text =>
    {
        Label label = LabelReader.Read(text);
        bool[] isSaid = new bool[text.Length];
        foreach ((Place at, string words) in Words(label))
        {
            foreach ((int start, int length) in Printed(text, at, words))
            {
                isSaid.AsSpan(start, length).Fill(true);
            }
        }

        string plain = DecimalComma.Replace(Plain(text), ".");
        HashSet<int> powers = [.. Powers(label).Select(static power => power.Milliwatts)];
        foreach (Match match in PrintedPower.Matches(plain))
        {
            // A power beside a mode is in its value only, and a maximum or total that is printed twice is kept once.
            decimal value = decimal.Parse(match.Groups[1].Value, CultureInfo.InvariantCulture) * (match.Groups[2].Length > 0 ? 1 : 1000);
            if (powers.Contains((int)Math.Min(value, int.MaxValue)))
            {
                isSaid.AsSpan(match.Index, match.Length).Fill(true);
            }
        }

        if (plain.Contains("(W)", StringComparison.Ordinal))
        {
            // The unit of a column of powers stands in its head.
            foreach (Match match in BareNumber.Matches(plain).Where(match => powers.Contains((int)Math.Min(decimal.Parse(match.Value, CultureInfo.InvariantCulture) * 1000, int.MaxValue))))
            {
                isSaid.AsSpan(match.Index, match.Length).Fill(true);
            }
        }

        foreach (Match match in Version.Matches(plain))
        {
            isSaid.AsSpan(match.Index, match.Length).Fill(true);
        }

        string[] ports = [.. label.Outputs.Select(static o => o.Port), .. label.Inputs.Select(static i => i.Port).OfType<string>(),
            .. label.InputMaxima.Select(static i => i.Port).OfType<string>(), .. Names(label)];
        foreach (Match match in PortList.Matches(plain))
        {
            foreach (System.Text.RegularExpressions.Capture number in match.Groups[2].Captures.Where(number => ports.Contains(match.Groups[1].Value.ToUpperInvariant() + number.Value)))
            {
                isSaid.AsSpan(number.Index, number.Length).Fill(true);
            }
        }

        foreach (Match match in PortCount.Matches(plain).Concat(Condition.Matches(plain)).Concat(PortNumber.Matches(plain)).Concat(NoteNumber.Matches(plain)))
        {
            isSaid.AsSpan(match.Index, match.Length).Fill(true);
        }

        for (int i = 0; i < text.Length; i++)
        {
            if (char.IsAsciiDigit(text[i]) && !isSaid[i] && label.Battery is null && !IsRepaired(label, text, i))
            {
                (string before, string word) = WordAround(plain, i);
                ports.Should().Contain(
                    name => word.Contains(name, StringComparison.OrdinalIgnoreCase) || PortNames.Key(before + word).EndsWith(PortNames.Key(name), StringComparison.Ordinal),
                    "digit {0} of «{1}» is in «{2}»", i, text, word);
            }
        }
    });

    [Fact]
    public void EditedLabel_HasNoValueThatIsNotPrinted() => EachEdited(static text =>
    {
        Label label = LabelReader.Read(text);
        foreach (PrintedFixed mode in label.Outputs.SelectMany(static output => output.Fixed)
            .Where(mode => !label.IsDoubtful(mode.At.Line)))
        {
            // Read again by the plainest means: digits before the first V and before the first A behind it.
            string plain = Plain(mode.Text).ToUpperInvariant().Replace("MAX", "", StringComparison.Ordinal);
            int volts = plain.IndexOf('V', StringComparison.Ordinal);
            if (volts < 0 || plain.IndexOf('A', volts) < 0 || label.Repairs.Any(repair => repair.At.Line == mode.At.Line))
            {
                // "5/9/12V⎓3A", "3A/2.22/1.67A": the unit stands behind another of the list.
                continue;
            }

            ThousandthsBefore(plain, volts).Should().Be(mode.Voltage.Millivolts, "«{0}»", mode.Text);
            ThousandthsBefore(plain, plain.IndexOf('A', volts)).Should().Be(mode.Current.Milliamperes, "«{0}»", mode.Text);
        }
    });

    // What differs from the printed digits is one of the repairs.
    [Fact]
    public void EditedLabel_HasNoPowerThatIsNotPrinted() => EachEdited(static text =>
    {
        Label label = LabelReader.Read(text);
        foreach (PrintedMaximum maximum in label.Outputs.Where(static output => output.Maximum is not null)
            .Select(static output => output.Maximum!).Where(maximum => !label.IsDoubtful(maximum.At.Line)))
        {
            // The point of "Max.65W" is that of the word.
            string plain = DecimalComma.Replace(Plain(maximum.Text), ".").Replace("x.", "x ", StringComparison.OrdinalIgnoreCase);
            Match printed = PrintedPower.Match(plain);
            if (!printed.Success)
            {
                // "65 / 30W / 18W": the unit stands behind another of the list.
                printed = PrintedPower.Match(plain + "W");
            }

            decimal value = decimal.Parse(printed.Groups[1].Value, CultureInfo.InvariantCulture);
            (value * (printed.Groups[2].Length > 0 ? 1 : 1000)).Should().Be(maximum.Power.Milliwatts, "«{0}»", maximum.Text);
        }
    });

    [Fact]
    public void EditedLabel_HasEachRepairAtItsPlace() => EachEdited(static text =>
    {
        foreach (PrintedRepair repair in LabelReader.Read(text).Repairs.Where(static repair => repair.Kind != RepairKind.Wrap))
        {
            text.Substring(IndexOf(text, repair.At, repair.Before), repair.Before.Length).Should().Be(repair.Before);
            repair.After.Should().NotBe(repair.Before);
        }
    });

    [Fact]
    public void AnyText_IsRead() => Gen.String.Sample(static text => LabelReader.Read(text).Text.Should().Be(text), iter: Edits);

    // The same edits each time, as the cases of Portwitness.Fuzz; PORTWITNESS_SEED makes others.
    private static void EachEdited(Action<string> check)
    {
        Random random = new(int.Parse(Environment.GetEnvironmentVariable("PORTWITNESS_SEED") ?? "1", CultureInfo.InvariantCulture));
        for (int at = 0; at < Edits; at++)
        {
            string text = LabelCase.All[random.Next(LabelCase.All.Count)].Text;
            for (int left = random.Next(9); left > 0; left--)
            {
                text = Edit(text, (random.Next(4), random.NextDouble(), random.Next(Alphabet.Length), random.Next(LabelCase.All.Count)));
            }

            check(text);
        }
    }

    private static string Edit(string text, (int Kind, double At, int Character, int Other) edit)
    {
        int at = (int)(edit.At * text.Length);
        string other = LabelCase.All[edit.Other].Text;
        return edit.Kind switch
        {
            0 => text.Insert(at, Alphabet[edit.Character].ToString()),
            1 when text.Length > 0 => text.Remove(Math.Min(at, text.Length - 1), 1),
            2 when text.Length > 0 => text.Remove(Math.Min(at, text.Length - 1), 1).Insert(Math.Min(at, text.Length - 1), Alphabet[edit.Character].ToString()),
            _ => text.Insert(at, other[..Math.Min(other.Length, edit.Character)]),
        };
    }

    private static IEnumerable<(Place At, string Words)> Words(Label label) =>
    [
        .. label.Unread.Select(static unread => (unread.At, unread.Text)),
        .. label.Remarks.Select(static remark => (remark.At, remark.Text)),
        .. label.Inputs.Select(static input => (input.At, input.Text)),
        .. label.InputMaxima.Select(static maximum => (maximum.At, maximum.Text)),
        .. label.Outputs.SelectMany(static output => output.Alternating).Select(static mains => (mains.At, mains.Text)),
        .. label.Outputs.SelectMany(static output => output.ProtocolMaxima).Select(static maximum => (maximum.At, maximum.Text)),
        .. label.Pads.Select(static pad => (pad.At, pad.Text)),
        .. label.Performance.Select(static figure => (figure.At, figure.Text)),
        .. label.Combinations.Select(static together => (together.At, together.Text)),
        .. label.Outputs.SelectMany(static output => output.Fixed).Select(static mode => (mode.At, mode.Text)),
        .. label.Outputs.SelectMany(static output => output.Ranges).Select(static range => (range.At, range.Text)),
        .. label.Outputs.Where(static output => output.Maximum is not null).Select(static output => (output.Maximum!.At, output.Maximum.Text)),
        .. label.Total is null ? [] : new[] { (label.Total.At, label.Total.Text) },
    ];

    private static IEnumerable<Power> Powers(Label label) =>
    [
        .. label.Outputs.SelectMany(static output => output.Fixed).Select(static mode => mode.Power).OfType<Power>(),
        .. label.Outputs.SelectMany(static output => output.Ranges).Select(static range => range.Power).OfType<Power>(),
        .. label.Inputs.Select(static input => input.Power).OfType<Power>(),
        .. label.Outputs.Select(static output => output.Maximum?.Power).OfType<Power>(),
        .. label.Total is null ? [] : new[] { label.Total.Power },
    ];

    private static IEnumerable<string> Names(Label label) =>
    [
        .. label.Outputs.SelectMany(static output => output.Fixed).Select(static mode => mode.Protocol).OfType<string>(),
        .. label.Outputs.SelectMany(static output => output.Ranges).Select(static range => range.Kind).OfType<string>(),
        .. label.Inputs.Select(static input => input.Protocol).OfType<string>(),
        .. label.Outputs.SelectMany(static output => output.ProtocolMaxima).Select(static maximum => maximum.Protocol).OfType<string>(),
    ];

    // A rating of a table has its words apart, one of a wrapped line has a break in it: then each word is looked for.
    private static List<(int Start, int Length)> Printed(string text, Place at, string words)
    {
        int start = IndexOf(text, at, words);
        if (start + words.Length <= text.Length && text.AsSpan(start, words.Length).SequenceEqual(words))
        {
            return [(start, words.Length)];
        }

        List<(int, int)> found = [];
        foreach (string word in words.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries))
        {
            int[] places = [.. Enumerable.Range(0, text.Length).Where(i => text.AsSpan(i).StartsWith(word, StringComparison.Ordinal))];
            places.Should().NotBeEmpty("«{0}» is printed in «{1}»", word, text);
            found.AddRange(places.Select(place => (place, word.Length)));
        }

        return found;
    }

    private static bool IsRepaired(Label label, string text, int index) => label.Repairs.Any(repair =>
    {
        int start = IndexOf(text, repair.At, repair.Before);
        return index >= start && index < start + repair.Before.Length;
    });

    private static (string Before, string Word) WordAround(string text, int index)
    {
        int start = index;
        while (start > 0 && (char.IsLetterOrDigit(text[start - 1]) || text[start - 1] is '-' or '.'))
        {
            start--;
        }

        int end = index;
        while (end < text.Length && (char.IsLetterOrDigit(text[end]) || text[end] is '-' or '.'))
        {
            end++;
        }

        int line = text.LastIndexOf('\n', Math.Max(start - 1, 0)) + 1;
        return (text[Math.Min(line, start)..start], text[start..end]);
    }

    private static int ThousandthsBefore(string text, int end)
    {
        int start = end - (end > 0 && text[end - 1] == 'M' ? 1 : 0);
        decimal scale = start == end ? 1000 : 1;
        string digits = new([.. text[..start].Reverse().SkipWhile(static c => !IsVisible(c)).TakeWhile(static c => char.IsAsciiDigit(c) || c is '.' or ',').Reverse()]);
        return (int)(decimal.Parse(digits.Trim(',').Replace(",", scale == 1 ? "" : "."), CultureInfo.InvariantCulture) * scale);
    }

    // Full-width forms to ASCII (Unicode, block Halfwidth and Fullwidth Forms).
    private static string Plain(string text) =>
        string.Concat(text.Select(static c => c is >= '\uFF01' and <= '\uFF5E' ? (char)(c - 0xFEE0) : c));

    private static int IndexOf(string text, Place place, string words)
    {
        int index = 0;
        for (int line = 1; line < place.Line; line++)
        {
            index = text.AsSpan(index).IndexOfAny('\n', '\r') + index;
            index += text[index] == '\r' && index + 1 < text.Length && text[index + 1] == '\n' ? 2 : 1;
        }

        index += index == 0 && text.StartsWith('\uFEFF') ? 1 : 0;
        for (int column = 1; column < place.Column; column++)
        {
            index += StringInfo.GetNextTextElementLength(text, index);
        }

        // A mark on a space is read without the space, which has the same column.
        return index + (words.Length == 0 ? 0 : Math.Max(0, text.AsSpan(index, StringInfo.GetNextTextElementLength(text, index)).IndexOf(words[0])));
    }

    // White space, and the signs that nobody sees (Unicode general category Cf, variation selectors).
    private static bool IsVisible(char c) =>
        !char.IsWhiteSpace(c) && c is not ((>= '\u200B' and <= '\u200F') or '\u2060' or '\uFEFF' or '\uFE0E' or '\uFE0F' or '\u00AE' or '\u2120' or '\u2122');
}
