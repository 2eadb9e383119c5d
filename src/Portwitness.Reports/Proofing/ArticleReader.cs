using System.Globalization;

namespace Portwitness.Reports.Proofing;

/// <summary>
/// Cuts an article, plain or in Markdown, into sentences, and finds its numbers with units. Fenced code and addresses are left out. Time grows with
/// the length only.
/// </summary>
internal sealed class ArticleReader
{
    // A longer sentence is cut.
    private const int MaxSentence = 2_000;
    private const int MaxListed = 6;

    // "approx.", "z. B.", "bzw."
    private const int LongestAbbreviation = 4;

    private static readonly string[] ListSigns = ["/", "×", "x", "*", "+", "–", "—", "-", "~", "to", "bis", "至", "到"];

    private readonly string _text;
    private readonly bool _isCommaDecimal;
    private readonly List<ArticleSentence> _sentences = [];
    private readonly List<ArticleAmount> _amounts = [];
    private int _counted;
    private int _line = 1;
    private int _column = 1;

    /// <summary>Reads an article.</summary>
    public ArticleReader(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        _text = text;
        Language = LanguageOf(text);
        _isCommaDecimal = Language == "de";
        CutSentences();
        for (int i = 0; i < _sentences.Count; i++)
        {
            FindAmounts(i);
        }
    }

    /// <summary>"en", "de" or "zh".</summary>
    public string Language { get; }

    /// <summary>The sentences.</summary>
    public IReadOnlyList<ArticleSentence> Sentences => _sentences;

    /// <summary>The amounts, in the order of the text.</summary>
    public IReadOnlyList<ArticleAmount> Amounts => _amounts;

    /// <summary>The words of a sentence, on one line.</summary>
    public string TextOf(ArticleSentence sentence) =>
        string.Join(' ', _text[sentence.Start..sentence.End].Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));

    /// <summary>An amount as it is written.</summary>
    public string TextOf(ArticleAmount amount) => string.Join(' ', _text[amount.Start..amount.End].Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));

    /// <summary>
    /// Line and column of a place, counted from 1, columns in characters as a person counts them. Places are asked for in the order of the text,
    /// so that a long line is counted once.
    /// </summary>
    public (int Line, int Column) PlaceOf(int index)
    {
        if (index < _counted)
        {
            (_counted, _line, _column) = (0, 1, 1);
        }

        ReadOnlySpan<char> between = _text.AsSpan(_counted, index - _counted);
        int newLine = between.LastIndexOf('\n');
        _line += between.Count('\n');
        _column = (newLine < 0 ? _column : 1) + new StringInfo(between[(newLine + 1)..].ToString()).LengthInTextElements;
        _counted = index;
        return (_line, _column);
    }

    /// <summary>Whether a bracket opens, or "=" stands, between two amounts, and nothing else.</summary>
    public bool IsBracketBetween(ArticleAmount first, ArticleAmount second) =>
        first.End <= second.Start && _text.AsSpan(first.End, second.Start - first.End).Trim() is "(" or "（" or "[" or "=" or "≈" or ", or" or "or";

    private static string LanguageOf(string text)
    {
        int han = text.Count(static c => c is >= '\u4e00' and <= '\u9fff');
        if (han * 20 > text.Length)
        {
            return "zh";
        }

        string[] words = text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries);
        int german = words.Count(static word => word is "und" or "der" or "die" or "das" or "mit" or "ist" or "nicht" or "von");
        int english = words.Count(static word => word is "and" or "the" or "of" or "with" or "is" or "not" or "a" or "to");
        return german > english ? "de" : "en";
    }

    private void CutSentences()
    {
        bool isFenced = false;
        int start = -1;
        int lineStart = 0;
        while (lineStart < _text.Length)
        {
            int newLine = _text.IndexOf('\n', lineStart);
            int end = newLine < 0 ? _text.Length : newLine;
            ReadOnlySpan<char> line = _text.AsSpan(lineStart, end - lineStart).Trim();
            bool isFence = line.StartsWith("```") || line.StartsWith("~~~");
            bool begins = line.IsEmpty || isFence || isFenced || line[0] is '|' or '#' or '>' or '-' or '*' or '+' || IsNumbered(line);
            if (begins && start >= 0)
            {
                Add(start, lineStart);
                start = -1;
            }

            isFenced ^= isFence;
            if (!line.IsEmpty && !isFence && !isFenced)
            {
                start = CutLine(start < 0 ? lineStart : start, lineStart, end);
                if (line[0] is '|' or '#' && start >= 0)
                {
                    Add(start, end);
                    start = -1;
                }
            }

            lineStart = end + 1;
        }

        if (start >= 0)
        {
            Add(start, _text.Length);
        }
    }

    // "1. ", "12) ".
    private static bool IsNumbered(ReadOnlySpan<char> line)
    {
        int digits = line.IndexOfAnyExceptInRange('0', '9');
        return digits is 1 or 2 && line.Length > digits + 1 && line[digits] is '.' or ')' && line[digits + 1] == ' ';
    }

    // Cuts behind each mark that ends a sentence; gives where the open one begins.
    private int CutLine(int start, int from, int end)
    {
        for (int i = from; i < end; i++)
        {
            if (EndsSentence(i, end) || i - start > MaxSentence)
            {
                Add(start, i + 1);
                start = i + 1;
            }
        }

        return start < end ? start : -1;
    }

    // "approx. 65 W", "3.25 A", "z. B." end nothing.
    private bool EndsSentence(int index, int end)
    {
        char c = _text[index];
        if (c is '。' or '！' or '？' or '；')
        {
            return true;
        }

        bool isMark = c is '.' or '!' or '?' && (index + 1 == end || _text[index + 1] is ' ' or '\r' or '\t' or ')' or '"');
        if (!isMark || c != '.')
        {
            return isMark;
        }

        int word = index;
        while (word > 0 && char.IsLetter(_text[word - 1]))
        {
            word--;
        }

        int next = index + 1;
        while (next < end && _text[next] is ' ' or ')' or '"')
        {
            next++;
        }

        if (next == end)
        {
            return true;
        }

        bool isUnit = word > 0 && ArticleUnit.All.Any(unit => !unit.IsWord && _text.AsSpan(word, index - word).SequenceEqual(unit.Written))
            && (char.IsAsciiDigit(_text[word - 1]) || (word > 1 && char.IsAsciiDigit(_text[word - 2])));
        bool isAbbreviation = !isUnit && index > word && index - word <= LongestAbbreviation;
        return char.IsUpper(_text[next]) ? !isAbbreviation : index - word > LongestAbbreviation && !char.IsAsciiDigit(_text[next]);
    }

    private void Add(int start, int end)
    {
        if (!_text.AsSpan(start, end - start).IsWhiteSpace())
        {
            _sentences.Add(new ArticleSentence(start, end));
        }
    }

    private void FindAmounts(int sentence)
    {
        (int at, int end) = (_sentences[sentence].Start, _sentences[sentence].End);
        List<(int Start, int End)> waiting = [];
        while (at < end)
        {
            if (_text.AsSpan(at).StartsWith("http") || _text.AsSpan(at).StartsWith("]("))
            {
                while (at < end && !char.IsWhiteSpace(_text[at]) && _text[at] != ')')
                {
                    at++;
                }

                continue;
            }

            if (!char.IsAsciiDigit(_text[at]))
            {
                at++;
                continue;
            }

            int numberEnd = NumberEnd(at, end);
            bool isName = at > 0 && (char.IsAsciiLetterOrDigit(_text[at - 1]) || _text[at - 1] is '_' or '#') && !FollowsUnit(at);
            if (!isName && UnitAt(numberEnd, end) is var (unit, unitEnd))
            {
                foreach ((int first, int last) in waiting)
                {
                    Add(sentence, first, last, unit, last);
                }

                Add(sentence, at, numberEnd, unit, unitEnd);
                waiting.Clear();
                at = unitEnd;
                continue;
            }

            int next = isName ? -1 : BehindListSign(numberEnd, end);
            if (next < 0 || waiting.Count == MaxListed)
            {
                waiting.Clear();
            }

            if (next >= 0)
            {
                waiting.Add((at, numberEnd));
            }

            at = next >= 0 ? next : numberEnd;
        }
    }

    // "20V3.25A": a unit stands right before.
    private bool FollowsUnit(int at) => _amounts is [.., var last] && last.End == at;

    // Digits with points and commas, and groups of three behind spaces.
    private int NumberEnd(int at, int end)
    {
        int i = at;
        while (i < end && (char.IsAsciiDigit(_text[i])
            || (_text[i] is '.' or ',' or '\'' or '’' && i + 1 < end && char.IsAsciiDigit(_text[i + 1]))
            || (_text[i] is ' ' or '\u00a0' or '\u202f' && i - at is > 0 and <= 3 && IsGroup(i + 1, end))))
        {
            i++;
        }

        return i;
    }

    private bool IsGroup(int at, int end) => at + 3 <= end && char.IsAsciiDigit(_text[at]) && char.IsAsciiDigit(_text[at + 1]) && char.IsAsciiDigit(_text[at + 2])
        && (at + 3 == end || !char.IsAsciiDigit(_text[at + 3]));

    private (ArticleUnit Unit, int End)? UnitAt(int at, int end)
    {
        int start = at;
        while (start < end && start - at < 2 && _text[start] is ' ' or '\u00a0' or '\u202f' or '-')
        {
            start++;
        }

        (ArticleUnit Unit, int End)? found = null;
        foreach (ArticleUnit unit in ArticleUnit.All)
        {
            int last = start + unit.Written.Length;
            bool isHere = last <= end && (found is null || last > found.Value.End)
                && _text.AsSpan(start, unit.Written.Length).Equals(unit.Written, unit.IsWord ? StringComparison.OrdinalIgnoreCase : StringComparison.Ordinal)
                && (last == end || !char.IsAsciiLetter(_text[last]) || !char.IsAsciiLetter(unit.Written[^1]));
            // "30 in total": the word, and no inch.
            bool isWord = unit.Written == "in" && last + 1 < end && _text[last] == ' ' && char.IsLetter(_text[last + 1]);
            found = isHere && !isWord ? (unit, last) : found;
        }

        return found;
    }

    // Where the next number of "5/9/15 V", "100 × 68 mm", "5 to 20 V" begins; -1 where none does.
    private int BehindListSign(int at, int end)
    {
        int start = SkipBlanks(at, end);
        foreach (string sign in ListSigns)
        {
            if (_text.AsSpan(start, Math.Max(0, end - start)).StartsWith(sign, StringComparison.OrdinalIgnoreCase))
            {
                int next = SkipBlanks(start + sign.Length, end);
                return next < end && char.IsAsciiDigit(_text[next]) && (!char.IsLetter(sign[0]) || sign == "x" || start > at) ? next : -1;
            }
        }

        return -1;
    }

    private int SkipBlanks(int at, int end)
    {
        while (at < end && _text[at] is ' ' or '\u00a0' or '\u202f')
        {
            at++;
        }

        return at;
    }

    private void Add(int sentence, int start, int numberEnd, ArticleUnit unit, int end)
    {
        if (ArticleNumber.Read(_text.AsSpan(start, numberEnd - start), _isCommaDecimal) is var (number, step, other))
        {
            _amounts.Add(new ArticleAmount(start, end, sentence, unit, number, step) { OtherNumber = other });
        }
    }
}
