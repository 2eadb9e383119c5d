namespace Portwitness.Labels;

/// <summary>The ports, the powers and the conditions of a sentence of which every word is known.</summary>
internal sealed partial class SentenceSlots
{
    private const int MaxSlots = 24;

    // In thousandths, as numbers are.
    private const int MostPorts = 8000;

    private readonly List<Token> _tokens;

    // Ports and powers in their order.
    private readonly List<Slot> _slots = [];

    private Token? _alone;
    private Token? _total;
    private int _count;
    private bool _isTogether;
    private bool _isMany;
    private bool _isBounded;
    private bool _isInTurn;
    private Token? _last;
    private bool _hasVerb;

    // No sign has parted what comes next from the power before it.
    private bool _isLinked;

    private SentenceSlots(List<Token> tokens) => _tokens = tokens;

    /// <summary>Reads a sentence; null when a word or sign of it may say something else.</summary>
    public static SentenceSlots? Read(List<Token> tokens, int start, int end)
    {
        SentenceSlots sentence = new(tokens);
        TokenReader reader = new(tokens) { At = start };
        PortGrammar ports = new(reader);
        while (reader.At < end)
        {
            int first = reader.At;
            if (sentence._slots.Count == MaxSlots)
            {
                return null;
            }

            if (first == start && reader.Current.Word == "A"
                && reader.Peek(1).Term is Term.Total or Term.MaximumOutput or Term.Heading or Term.Port or Term.Output)
            {
                // "A potência total": an article.
                reader.At++;
            }
            else if (reader.Current.Is(Dimension.Power))
            {
                sentence._slots.Add(new Slot("", Power(tokens, start, first, end), IsLinked: false));
                sentence._isLinked = true;
                reader.At++;
            }
            else if (sentence.Port(reader, ports) is { } port)
            {
                if (reader.At > end)
                {
                    return null;
                }

                if (!port.IsPower)
                {
                    sentence._slots.Add(port);
                }

                sentence._isLinked = false;
            }
            else if (!sentence.Note(reader))
            {
                return null;
            }
        }

        return sentence;
    }

    // "max. 65 W", "65 W max.".
    private static Range Power(List<Token> tokens, int start, int at, int end)
    {
        int first = at;
        while (first > start && tokens[first - 1].Term is Term.Maximum or Term.UpTo)
        {
            first--;
        }

        return first..(at + 1 < end && tokens[at + 1].Term == Term.Maximum ? at + 2 : at + 1);
    }

    // "C1", and the "(C1)" of "45W (C1)".
    private Slot? Port(TokenReader reader, PortGrammar ports)
    {
        int first = reader.At;
        bool isOpen = _isLinked && reader.Skip(TokenKind.Open);
        int start = reader.At;
        if ((ports.Port() ?? ports.Pad()) is not { } name)
        {
            reader.At = first;
            return null;
        }

        // "both USB-C ports": a kind.
        if (!isOpen && PortNames.Key(name).Length == 1 && _last is { } word && (word.Counts > 0
            || word.Term == Term.Many))
        {
            _last = null;
            return new Slot("", start..start, IsLinked: false);
        }

        Range tokens = start..reader.At;
        if (isOpen && !reader.Skip(TokenKind.Close))
        {
            reader.At = first;
            return null;
        }

        return new Slot(PortNames.Key(name), tokens, _isLinked);
    }

    // What a word that is no port and no power says; false when it may change the meaning.
    private bool Note(TokenReader reader)
    {
        Token token = reader.Current;
        reader.At++;
        _last = token;
        if (PortGrammar.IsCount(token) && token.Value <= MostPorts && reader.Current.Term == Term.Port)
        {
            return Count(token.Value / 1000);
        }

        switch (token.Term)
        {
            case Term.Alone:
                _alone ??= token;
                return true;
            case Term.Together or Term.Shared:
                return _isTogether = true;
            case Term.Many:
                return _isMany = true;
            case Term.Two or Term.Three or Term.Four:
                return Count(token.Counts);
            case Term.Total:
                _total ??= token;
                return true;
            case Term.Maximum or Term.UpTo or Term.MaximumOutput:
                return _isBounded = true;
            case Term.Gives or Term.Use:
                return _hasVerb = true;
            case Term.Input:
                // "is split in 45W and 20W".
                return token.Word == "in" && reader.Current.Kind != TokenKind.Colon;
            case Term.Article or Term.And or Term.Port or Term.Product or Term.At or Term.Via or Term.Output
                or Term.Heading or Term.Nothing
                or Term.To or Term.From:
                _isLinked &= token.Term != Term.And;
                return true;
            case Term.Each:
                // "respectively"; anywhere else it says something of one port, nobody knows of which.
                return _isInTurn = true;
            default:
                if (token.Kind == TokenKind.Plus)
                {
                    // "45W (C1) + 20W (C2)".
                    return _slots is [.., { IsPower: false, IsLinked: true }];
                }

                _isLinked &= token.Kind != TokenKind.Comma;
                return token.Kind is TokenKind.Comma or TokenKind.Colon
                    || (token is { Kind: TokenKind.Dash, SpaceBefore: > 0 } && reader.Current.Is(Dimension.Power));
        }
    }

    private bool Count(int ports)
    {
        bool isSame = _count == 0 || _count == ports;
        _count = ports;
        return isSame;
    }

    // A port by the key of its name, or a power, and where it is printed. A port that is linked stands right behind a power: "45W from C1".
    private sealed record Slot(string Port, Range Tokens, bool IsLinked)
    {
        public bool IsPower => Port.Length == 0;
    }
}
