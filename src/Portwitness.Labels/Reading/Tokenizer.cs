namespace Portwitness.Labels;

/// <summary>Cuts a label's text into tokens. Every printed character but white space is in exactly one of them.</summary>
internal sealed partial class Tokenizer
{
    // What nobody knows is cut somewhere.
    private const int MaxUnspaced = 40;

    private const int MaxBeforeSlash = 3;

    private readonly FoldedText _text;
    private readonly Quantities _quantities;
    private readonly List<Token> _tokens = [];
    private int _at;
    private int _spaces;

    private Tokenizer(FoldedText text) => (_text, _quantities) = (text, new Quantities(text));

    /// <summary>Repairs misprints in the text, and cuts it.</summary>
    public static List<Token> Read(FoldedText text)
    {
        Misprints.Repair(text);
        Tokenizer tokenizer = new(text);
        while (tokenizer._at < text.Length)
        {
            tokenizer.Next();
        }

        return HeadingWords.Join(Phrases.Join(tokenizer._tokens));
    }

    private void Next()
    {
        char c = _text[_at];
        if (c is ' ' or '\t' || (char.IsWhiteSpace(c) && c is not ('\n' or '\r')))
        {
            _spaces += c == '\t' ? 2 : 1;
            _at++;
        }
        else if (char.IsAsciiDigit(c) || (c == '.' && char.IsAsciiDigit(_text[_at + 1]) && !FollowsWord()))
        {
            Number();
        }
        else if (Letters.IsUnspaced(c))
        {
            UnspacedWord();
        }
        else if (Letters.IsLetter(c))
        {
            Word();
        }
        else
        {
            Sign(c);
        }
    }

    private void Number()
    {
        Quantities.Reading reading = _quantities.Read(_at);
        bool times = _text[reading.End] is 'x' or 'X'
            && (!Letters.IsLetterOrDigit(_text[reading.End + 1]) || _quantities.QuantityAt(reading.End + 1));
        if (AtLineStart() && reading.End == _at + 1 && _text[_at + 1] == ')' && _text[_at + 2] == ' ' && IsWordStart(_text[_at + 3]))
        {
            // "1) when used alone".
            Add(TokenKind.Note, _at + 2);
        }
        else if (AtLineStart() && reading.End == _at + 1 && _text[_at + 1] == ',' && Letters.IsUnspaced(_text[_at + 2]))
        {
            // "1、输出".
            Add(TokenKind.Note, _at + 2);
        }
        else if (IsCircledNote(reading.End))
        {
            Add(TokenKind.Note, reading.End);
        }
        else if (Cells(_at) is { } cells)
        {
            Add(new Token
            {
                Kind = TokenKind.Cells,
                Value = cells.Value,
                Start = _text.SourceStart(_at),
                End = _text.SourceEnd(cells.End - 1),
                SpaceBefore = Math.Min(_spaces, 2),
            }, cells.End);
        }
        else if (KindsEnd(_at) is { } kinds)
        {
            Add(new Token
            {
                Kind = TokenKind.Kinds,
                Word = _text.Slice(_at, kinds).ToString(),
                Start = _text.SourceStart(_at),
                End = _text.SourceEnd(kinds - 1),
                SpaceBefore = Math.Min(_spaces, 2),
            }, kinds);
        }
        else if (IsJoined(reading.End) && !times && !_quantities.QuantityAt(reading.End))
        {
            // "5G", "1S2P", "65WMax", and a digit with a combining mark.
            Add(TokenKind.Other, RunEnd(_at));
        }
        else if (!reading.IsValid)
        {
            Add(TokenKind.Other, reading.End);
        }
        else
        {
            int end = reading.Then is null ? reading.End : reading.UnitStart + 1;
            Add(new Token
            {
                Kind = reading.Dimension == Dimension.None ? TokenKind.Number : TokenKind.Quantity,
                Dimension = reading.Dimension,
                Value = reading.Value,
                Step = reading.Step,
                Start = _text.SourceStart(_at),
                End = _text.SourceEnd(end - 1),
                SpaceBefore = Math.Min(_spaces, 2),
            }, end);
            if (reading.IsRespelled)
            {
                NoteRespelled(reading);
            }

            if (reading.Then is { } sign)
            {
                Add(sign, reading.End);
            }
        }
    }

    private void NoteRespelled(Quantities.Reading reading)
    {
        Token token = _tokens[^1];
        string unit = reading.Dimension == Dimension.None ? "" : _text.Slice(reading.UnitStart, reading.End).ToString();
        bool isInUnit = unit is ['m' or '毫', ..] || token.Dimension == Dimension.Frequency;
        decimal value = isInUnit ? token.Value : unit is ['k' or 'K', ..] ? token.Value / 1_000_000m : token.Value / 1000m;
        string spelled = string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{value:0.###} {unit}");
        _text.Repairs.Add(new Repair(RepairKind.Number, token.Start, token.End, spelled.TrimEnd()));
    }

    // "1S2P", "2S1P".
    private (int End, int Value)? Cells(int start)
    {
        int series = start;
        while (char.IsAsciiDigit(_text[series]))
        {
            series++;
        }

        int parallel = series + 1;
        while (char.IsAsciiDigit(_text[parallel]))
        {
            parallel++;
        }

        bool isCells = series - start is 1 or 2 && parallel - series is 2 or 3 && _text[series] is 'S' or 's' or '串'
            && _text[parallel] is 'P' or 'p' or '并' or '並' && !Letters.IsLetterOrDigit(_text[parallel + 1]);
        return isCells
            ? (parallel + 1, (int.Parse(_text.Slice(start, series)) * 1000) + int.Parse(_text.Slice(series + 1, parallel)))
            : null;
    }

    // "1C1A", "2C1A", and "2C" with more behind it than a value would have.
    private int? KindsEnd(int start)
    {
        int end = start;
        while (_text[end] is >= '1' and <= '4' && _text[end + 1] is 'C' or 'c' or 'A' or 'a')
        {
            end += 2;
        }

        // "2C: 45W+20W", where "2A:" may be amperes.
        bool isOneKind = end - start == 2 && _text[start] > '1' && _text[start + 1] is 'C' or 'c' && _text[end] == ':' && AtLineStart();
        bool isMore = isOneKind || (end - start >= 4 && _text.Slice(start, end).ContainsAny('C', 'c'));
        return isMore && !(Letters.IsLetterOrDigit(_text[end]) && !Letters.IsUnspaced(_text[end])) ? end : null;
    }

    internal static TokenKind KindOf(Term term) =>
        term switch
    {
        Term.Direct => TokenKind.Direct,
        Term.Alternating => TokenKind.Alternating,
        Term.Plus => TokenKind.Plus,
        _ => TokenKind.Word,
    };

    private void Sign(char c)
    {
        int run = _at + 1;
        while (_text[run] == c && c is Folding.Direct or '=' or '~' or '-' or Folding.Dash or '.')
        {
            run++;
        }

        switch (c)
        {
            case not ('\r' or '\n') when IsMark(_text[run]):
                Add(TokenKind.Other, RunEnd(run));
                break;
            case '\r' or '\n':
                Add(TokenKind.Break, c == '\r' && _text[_at + 1] == '\n' ? _at + 2 : _at + 1);
                break;
            case '-' or Folding.Dash when run == _at + 1 && _text[_at + 1] == ' ' && _text[_at + 2] == c
                                          && _text[_at + 3] == ' ' && _text[_at + 4] == c:
                Add(TokenKind.Direct, _at + 5);
                break;
            case '-' or Folding.Dash when AtLineStart() && run == _at + 1 && _text[run] == ' ':
                Add(TokenKind.Bullet, run);
                break;
            case '-' or Folding.Dash:
                Add(run == _at + 1 ? TokenKind.Dash : TokenKind.Direct, run);
                break;
            case '°' when _text[run] is 'C' or 'F' && !Letters.IsLetter(_text[run + 1]):
                // No port "C".
                Add(TokenKind.Other, run + 1);
                break;
            case '.':
                Add(TokenKind.Stop, run, run == _at + 1 ? Term.None : Term.To);
                break;
            case '\u203B' or '\u2020' or '\u2021':
            case '\u00B9' or '\u00B2' or '\u00B3' when _tokens is [.., { Kind: TokenKind.Quantity or TokenKind.Close } or { Term: Term.Maximum or Term.Each }
                or { Term: Term.PortName, Word: [.., >= '0' and <= '9'] } or { Kind: TokenKind.Break }]:
                // "※1", "†": a note stands below.
                while (char.IsAsciiDigit(_text[run]) && run - _at < 3)
                {
                    run++;
                }

                Add(TokenKind.Note, run);
                break;
            case '(' when char.IsAsciiDigit(_text[_at + 1]) && _text[_at + 2] == ')' && IsNumberedNote():
                Add(TokenKind.Note, _at + 3);
                break;
            case '#' when run == _at + 1 && char.IsAsciiDigit(_text[run]) && _tokens is [.., { Kind: TokenKind.Word }]:
                Add(TokenKind.NumberSign, run);
                break;
            case '*' when AtLineStart():
                Add(TokenKind.Bullet, run);
                break;
            case '*' when IsTimes():
                Add(new Token
                {
                    Kind = TokenKind.Word,
                    Word = "x",
                    Term = Term.Times,
                    Start = _text.SourceStart(_at),
                    End = _text.SourceEnd(_at),
                    SpaceBefore = Math.Min(_spaces, 2),
                }, _at + 1);
                break;
            case '*' when _spaces == 0 && !Letters.IsLetterOrDigit(_text[run]):
                Add(TokenKind.Note, run);
                break;
            case '&':
                // "A1 & A2" may be both of them, or each.
                Add(TokenKind.Plus, run, Term.And);
                break;
            default:
                TokenKind kind = KindOf(c);
                Add(kind, kind == TokenKind.Other ? RunEnd(run) : run);
                break;
        }
    }

    // "65W Max①", "C1¹", and "①" in front of words: a note; "USB-C①" and "Output ①" are numbered. (Unicode, Enclosed Alphanumerics.)
    private bool IsCircledNote(int end)
    {
        char printed = _text.Printed[_text.SourceStart(_at)];
        if (printed is not (>= '\u2460' and <= '\u2468'))
        {
            return false;
        }

        int next = end;
        while (char.IsWhiteSpace(_text[next]) && _text[next] is not ('\n' or '\r'))
        {
            next++;
        }

        return AtLineStart() ? IsWordStart(_text[next])
            : _tokens[^1].Kind is TokenKind.Quantity or TokenKind.Close || _tokens[^1].Term is Term.Maximum or Term.Each;
    }

    private static bool IsWordStart(char c) => Letters.IsLetter(c) || Letters.IsUnspaced(c);

    // "(1)" behind a value at the end of a line, and in front of what is said of it.
    private bool IsNumberedNote()
    {
        char next = _text[_at + 3];
        return AtLineStart() ? IsWordStart(next == ' ' ? _text[_at + 4] : next)
            : next is '\0' or '\n' or '\r' && (_tokens[^1].Kind is TokenKind.Quantity or TokenKind.Close || _tokens[^1].Term is Term.Maximum or Term.Each);
    }

    // "USB-A*2", "2 * USB-A".
    private bool IsTimes()
    {
        int next = _text[_at + 1] == ' ' ? _at + 2 : _at + 1;
        return char.IsAsciiDigit(_text[next]) || (_tokens is [.., { Kind: TokenKind.Number }] && Letters.IsLetter(_text[next]));
    }

    private static TokenKind KindOf(char c) => c switch
    {
        Folding.Direct => TokenKind.Direct,
        '=' => TokenKind.Equals,
        '~' => TokenKind.Tilde,
        '/' => TokenKind.Slash,
        '+' or '&' => TokenKind.Plus,
        ',' => TokenKind.Comma,
        ';' => TokenKind.Semicolon,
        '|' => TokenKind.Bar,
        Folding.Bullet => TokenKind.Bullet,
        ':' => TokenKind.Colon,
        '@' => TokenKind.At,
        '<' or '>' => TokenKind.Bound,
        '(' or '[' => TokenKind.Open,
        ')' or ']' => TokenKind.Close,
        _ => TokenKind.Other,
    };

    // What follows a strange sign without a space belongs to it: "±5V" is not 5 V.
    private int RunEnd(int from)
    {
        int end = from;
        while (end < _text.Length && !char.IsWhiteSpace(_text[end])
            && (KindOf(_text[end]) == TokenKind.Other && (_text[end] != '.' || IsJoined(end + 1))))
        {
            end++;
        }

        return Math.Max(end, from);
    }

    private bool AtLineStart() => _tokens is [] or [.., { Kind: TokenKind.Break }];

    private bool FollowsWord() => _at > 0 && char.IsLetterOrDigit(_text[_at - 1]);

    private bool IsJoined(int index) => Letters.IsLetterOrDigit(_text[index]) || IsMark(_text[index]);

    private static bool IsMark(char c) => char.GetUnicodeCategory(c) is System.Globalization.UnicodeCategory.NonSpacingMark
        or System.Globalization.UnicodeCategory.EnclosingMark or System.Globalization.UnicodeCategory.SpacingCombiningMark;

    private void Add(TokenKind kind, int end, Term term = Term.None) => Add(new Token
    {
        Kind = kind,
        Term = term,
        Start = _text.SourceStart(_at),
        End = _text.SourceEnd(end - 1),
        SpaceBefore = Math.Min(_spaces, 2),
    }, end);

    private void Add(Token token, int end)
    {
        _tokens.Add(token);
        _at = end;
        _spaces = 0;
    }
}
