namespace Portwitness.Labels;

/// <content>The sentence as a plain line.</content>
internal sealed partial class SentenceSlots
{
    /// <summary>The sentence as a plain line; null when it says nothing that is sure.</summary>
    public List<Token>? Plain(bool mayBeTotal)
    {
        bool isTogether = _isTogether || _isMany || _count > 1;
        if (_isInTurn && (_slots.Count < 4 || _slots[1..(_slots.Count / 2)].Exists(static slot => slot.IsPower)))
        {
            return null;
        }

        Slot[] powers = [.. _slots.Where(static slot => slot.IsPower)];
        int powersBehind = _slots.Count - _slots.FindIndex(static slot => slot.IsPower);
        if (powers.Length == 0 || (_alone is not null && isTogether))
        {
            return null;
        }

        if (_slots.Count == 1)
        {
            bool isTotal = mayBeTotal && _count == 0 && _alone is null
                && (_total is not null || (isTogether && _isBounded && (_hasVerb || _isMany)));
            return isTotal ? Total(powers[0]) : null;
        }

        (Slot Port, Slot Power)[]? pairs = Pairs();
        if (pairs is [var (port, power)] && _slots.Count == 2 && !isTogether && _total is null)
        {
            return _alone is not null || (_isBounded && _hasVerb) ? Single(port, power) : null;
        }

        if (pairs is null || _total is not null)
        {
            return null;
        }

        if (_alone is not null)
        {
            return _slots.Count == pairs.Length * 2 ? Singles(pairs) : null;
        }

        // Ports that are named in front, or a word, say that they are used at once.
        bool isListed = _slots.Count > pairs.Length * 2 || (powersBehind == pairs.Length && isTogether);
        bool isCombination = pairs.Length > 1 && (isTogether || (isListed && _hasVerb)) && (_count == 0
            || _count == pairs.Length);
        return isCombination ? Combination(pairs) : null;
    }

    private List<Token> Singles((Slot Port, Slot Power)[] pairs)
    {
        List<Token> lines = [];
        foreach ((Slot port, Slot power) in pairs)
        {
            lines.AddRange(lines.Count == 0 ? Single(port, power) : [Sign(TokenKind.Break, port), .. Single(port, power)]);
        }

        return lines;
    }

    private List<Token> Single(Slot port, Slot power) =>
    [
        .. _alone is null ? [] : (Token[])[_alone, Sign(TokenKind.Colon, port)], .. Words(port), Sign(TokenKind.Colon, power), .. Words(power),
    ];

    private List<Token> Total(Slot power) =>
    [
        _total ?? Sign(TokenKind.Word, power) with { Term = Term.Total, Word = "total" },
        Sign(TokenKind.Colon, power), .. Words(power),
    ];

    private List<Token> Combination((Slot Port, Slot Power)[] pairs) => AreInOrder(pairs)
        ? Joined(pairs.Select(pair => (List<Token>)[.. Words(pair.Port), .. Words(pair.Power)]))
        : [.. Joined(pairs.Select(pair => Words(pair.Port))), Sign(TokenKind.Colon, pairs[0].Power), .. Joined(pairs.Select(pair => Words(pair.Power)))];

    // "C1 45W + C2 20W" can be written with each word where it is printed.
    private static bool AreInOrder((Slot Port, Slot Power)[] pairs) =>
        pairs.SelectMany(static pair => (int[])[pair.Port.Tokens.Start.Value, pair.Power.Tokens.Start.Value]) is var places && places.SequenceEqual(places.Order());

    private static List<Token> Joined(IEnumerable<List<Token>> parts)
    {
        List<Token> line = [];
        foreach (List<Token> part in parts)
        {
            line.AddRange(line.Count == 0 ? part : [Sentences.Sign(TokenKind.Plus, part[0].Start), .. part]);
        }

        return line;
    }

    private List<Token> Words(Slot slot) => _tokens[slot.Tokens];

    private Token Sign(TokenKind kind, Slot before) => Sentences.Sign(kind, Start(before));

    private int Start(Slot slot) => _tokens[slot.Tokens.Start.Value].Start;
}
