namespace Portwitness.Labels;

/// <content>Words.</content>
internal sealed partial class Tokenizer
{
    // "lader", and what stands in front of it.
    private const int ShortestProduct = 5;
    private const int ShortestCompound = 8;

    // The longest known phrase that begins here, or all up to where one begins. A single character inside a longer word means nothing.
    private void UnspacedWord()
    {
        int end = _at + Math.Max(1, PhraseLength(_at));
        if (end == _at + 1 && PhraseLength(_at) == 0)
        {
            while (Letters.IsUnspaced(_text[end]) && end - _at < MaxUnspaced && PhraseLength(end) < 2)
            {
                end++;
            }
        }

        if (IsMark(_text[end]))
        {
            Add(TokenKind.Other, RunEnd(end));
            return;
        }

        AddWord(end);
    }

    private int PhraseLength(int start)
    {
        int length = 0;
        while (length < Vocabulary.LongestUnspaced && (Letters.IsUnspaced(_text[start + length])
            || (length > 0 && (Letters.IsLetterOrDigit(_text[start + length]) || _text[start + length] == '-'))))
        {
            length++;
        }

        while (length > 0 && (Vocabulary.Find(_text.Slice(start, start + length)) == Term.None || !EndsWord(start + length)))
        {
            length--;
        }

        return length;
    }

    private bool EndsWord(int end) => Letters.IsUnspaced(_text[end - 1]) || !Letters.IsLetterOrDigit(_text[end]);

    private void Word()
    {
        int letters = _at;
        while (Letters.IsLetter(_text[letters]))
        {
            letters++;
        }

        // "DC5V", "PPS3.3-11V": a known word with its value; "OUT1" and "PD3.1" are names.
        Term word = char.IsAsciiDigit(_text[letters]) ? Vocabulary.Find(_text.Slice(_at, letters)) : Term.None;
        bool isBeforeValue = _quantities.QuantityAt(letters) || (word is Term.Direct or Term.Alternating && _quantities.RangeAt(letters));
        if (word != Term.None && isBeforeValue && CanHoldValue(word))
        {
            AddWord(letters);
            return;
        }

        // "USB-A x2", "USB-A (x2)".
        if (_text[_at] is 'x' or 'X' && letters == _at + 1 && char.IsAsciiDigit(_text[letters]) && !Letters.IsLetterOrDigit(_text[letters + 1])
            && (_tokens is [.., { Kind: TokenKind.Open }] || _tokens is [.., { Term: Term.PortName or Term.Usb or Term.Port }]))
        {
            AddWord(letters);
            return;
        }

        // "I/P", "S/N".
        if (_text[letters] == '/' && letters - _at <= MaxBeforeSlash && Letters.IsLetter(_text[letters + 1]))
        {
            int behind = letters + 1;
            while (Letters.IsLetter(_text[behind]))
            {
                behind++;
            }

            if (!Letters.IsLetterOrDigit(_text[behind]) && Vocabulary.Find(_text.Slice(_at, behind)) != Term.None)
            {
                AddWord(behind);
                return;
            }
        }

        int end = WordEnd(letters);
        if (IsMark(_text[end]))
        {
            Add(TokenKind.Other, RunEnd(end));
            return;
        }

        AddWord(end, IsAbbreviation(end) ? 1 : 0);
    }

    // "Max. 65W", "Max.65W"; the point of "DC.3A" may be a decimal one.
    private bool IsAbbreviation(int end) => _text[end] == '.' && Vocabulary.Find(_text.Slice(_at, end)) switch
    {
        Term.None => false,
        Term.Maximum or Term.Typical => true,
        _ => !char.IsAsciiDigit(_text[end + 1]),
    };

    // "2x6500mAh", but not "X3A".
    private bool CanHoldValue(Term word) =>
        word == Term.Times ? _tokens is [.., { Kind: TokenKind.Number }] && _spaces == 0 : word != Term.None;

    // A hyphen or point joins what it has no space to: "USB-C1", "PD3.1", "d.c".
    private int WordEnd(int from)
    {
        int end = from;
        while (Letters.IsLetterOrDigit(_text[end])
            || (_text[end] is '-' or '_' && Letters.IsLetterOrDigit(_text[end + 1]))
            || (_text[end] == '°' && end == from && _text[end - 1] is 'n' or 'N')
            || (_text[end] is '\'' && Letters.IsLetter(_text[end - 1]) && Letters.IsLetter(_text[end + 1]))
            || (_text[end] is '.' && JoinsWord(_text[end - 1], _text[end + 1])))
        {
            end++;
        }

        return end;
    }

    private static bool JoinsWord(char before, char after) =>
        (char.IsAsciiDigit(before) && char.IsAsciiDigit(after)) || (Letters.IsLetter(before) && Letters.IsLetter(after));

    private void AddWord(int end, int trailing = 0)
    {
        // Longer words mean nothing; they stay as they are printed.
        string word = end - _at <= MaxUnspaced ? _text.Slice(_at, end).ToString() : "";
        Term term = word is "A" or "B" or "C" or "А" ? Term.None : Vocabulary.Find(word);
        if (term == Term.None && word.Contains('-', StringComparison.Ordinal) && PortEnd(word) is { } portEnd)
        {
            AddWord(_at + portEnd, 1);
            return;
        }

        if (term == Term.None && word is [var letter, >= '1' and <= '9', '-', var other, >= '1' and <= '9'] && letter == other && PortGrammar.IsName(word[..2]))
        {
            // "A1-A4".
            AddWord(_at + 2);
            return;
        }

        if (term == Term.None && Letters.InLatin(word) is { } latin && (PortGrammar.IsName(latin) || Vocabulary.Find(latin) == Term.Usb))
        {
            word = latin;
            term = Vocabulary.Find(latin);
        }

        if (term == Term.None && IsCompound(word))
        {
            term = Term.Product;
        }

        if (term == Term.None && WordParts.OfCompound(word) is not Term.None and var compound)
        {
            term = compound;
        }

        Add(new Token
        {
            Kind = KindOf(term),
            Word = word,
            Term = term == Term.None && PortGrammar.IsName(word) ? Term.PortName : term,
            Start = _text.SourceStart(_at),
            End = _text.SourceEnd(end + trailing - 1),
            SpaceBefore = Math.Min(_spaces, 2),
        }, end + trailing);
    }

    // "Reiselader", "Würfelladegerät": what it ends in says what the thing is.
    private static bool IsCompound(string word)
    {
        for (int start = ShortestCompound - ShortestProduct; start >= 1 && start <= word.Length - ShortestProduct; start++)
        {
            if (Vocabulary.Find(word.AsSpan(start)) == Term.Product)
            {
                return !word.AsSpan().ContainsAnyInRange('0', '9') && !word.Contains('-', StringComparison.Ordinal);
            }
        }

        return false;
    }

    // "USB-C-Ausgang", "C-Port": the name ends at the last hyphen.
    private static int? PortEnd(string word)
    {
        int hyphen = word.LastIndexOf('-');
        bool isPort = Vocabulary.Find(word.AsSpan(hyphen + 1)) is Term.Port or Term.Input or Term.Output or Term.Cable or Term.Heading or Term.MaximumOutput
            && (Vocabulary.Find(word.AsSpan(0, hyphen)) is Term.Usb or Term.PortName or Term.Programmable
            || PortGrammar.IsName(word[..hyphen]));
        return isPort ? hyphen : null;
    }
}
