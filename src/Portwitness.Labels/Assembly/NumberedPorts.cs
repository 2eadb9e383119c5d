using System.Collections.Immutable;
using System.Globalization;

namespace Portwitness.Labels;

/// <summary>
/// "Output 1 (USB-C):" and "Output 2 (USB-C):" are C1 and C2. A port's number matters only where two of one name meet; a sole one is "C".
/// "1+2: 45W+20W" then speaks of them.
/// </summary>
internal static class NumberedPorts
{
    /// <summary>Names the ports of the pieces; a bare name that could be either of two is nobody's.</summary>
    public static void Name(List<Piece> pieces, List<Token> tokens)
    {
        HeaderPiece[] numbered = [.. pieces.OfType<HeaderPiece>().Where(static header => header is { Number: not null, Ports.Length: 1 })];
        if (numbered.Length == 0 && !pieces.Exists(static piece => piece is CombinationPiece { IsNumbered: true }))
        {
            return;
        }

        HashSet<string> several = [.. Mentions(tokens).GroupBy(static one => one.Port, static one => one.Number)
            .Where(static numbers => numbers.Distinct().Count() > 1).Select(static numbers => numbers.Key)];
        AddBare(several, numbered, pieces);
        ILookup<int, string> byNumber = numbered.Where(static header => header.Direction != Direction.Input)
            .ToLookup(static header => header.Number!.Value, header => NameOf(header, several));
        for (int i = 0; i < pieces.Count; i++)
        {
            pieces[i] = pieces[i] switch
            {
                HeaderPiece { IsNumberLoose: true, Number: > 1 } header when !Array.Exists(numbered, one => one.Number == header.Number - 1) => Unclear(header),
                HeaderPiece { Number: not null, Ports.Length: 1 } header => header with { Ports = [NameOf(header, several)] },
                HeaderPiece { Direction: not Direction.Input } header when header.Ports.Any(port => several.Contains(Key(isInput: false, port))) =>
                    Unclear(header),
                CombinationPiece { IsNumbered: true } combination => Resolve(combination, byNumber),
                CombinationPiece combination when Ports(combination).Any(port => several.Contains(Key(isInput: false, port))) =>
                    combination with { Rating = null },
                Piece other => other,
            };
        }
    }

    // "USB-C: …" above "Output 2 (USB-C): …", where no output is the first: the bare name may be another port, or the same.
    private static void AddBare(HashSet<string> several, HeaderPiece[] numbered, List<Piece> pieces)
    {
        HashSet<string> bare =
        [
            .. pieces.Where((piece, i) => piece is HeaderPiece { Number: null, Ports.Length: 1 } header && (header.IsMarked || i == 0 || pieces[i - 1] is BreakPiece))
                .Select(static piece => KeyOf((HeaderPiece)piece)),
        ];
        foreach (HeaderPiece header in numbered.Where(header => header.Number > 1 && bare.Contains(KeyOf(header))
            && !Array.Exists(numbered, one => one.Number == header.Number - 1)))
        {
            several.Add(KeyOf(header));
        }
    }

    // Words with a direction, a number and a port, whether or not they are read: what is unread has a port of its own, too.
    private static IEnumerable<(string Port, int Number)> Mentions(List<Token> tokens)
    {
        foreach (List<Token> words in Heads(tokens))
        {
            bool isInput = words.Exists(static token => token.Term == Term.Input);
            int[] numbers = [.. Enumerable.Range(0, words.Count).Where(i => IsOfPort(words, i)).Select(i => words[i].Value)];
            if (isInput || words.Exists(static token => token.Term is Term.Output or Term.Port || token.Kind == TokenKind.Open))
            {
                foreach (Token port in words.Where(static token => token.Term == Term.PortName))
                {
                    foreach (int number in numbers)
                    {
                        yield return (Key(isInput, port.Word), number);
                    }
                }
            }
        }
    }

    // What stands in front of the values of a line, and between them.
    private static IEnumerable<List<Token>> Heads(List<Token> tokens)
    {
        List<Token> words = [];
        foreach (Token token in tokens)
        {
            if (token.Kind is not (TokenKind.Quantity or TokenKind.Break))
            {
                words.Add(token);
            }
            else if (words.Count > 0)
            {
                yield return words;
                words = [];
            }
        }

        yield return words;
    }

    // "Output 1 (", "Port 2:", and what a word that nobody knows has moved a little.
    private static bool IsOfPort(List<Token> words, int index) => PortGrammar.IsCount(words[index])
        && (index + 1 == words.Count || words[index + 1].Kind is TokenKind.Colon or TokenKind.Open or TokenKind.Word or TokenKind.Close)
        && (index == 0 || words[index - 1].Kind is TokenKind.Word
            || (words[index - 1].Kind == TokenKind.Open && index + 1 < words.Count && words[index + 1].Kind == TokenKind.Close));

    private static string KeyOf(HeaderPiece header) => Key(header.Direction == Direction.Input, header.Ports[0]);

    private static string Key(bool isInput, string port) => $"{(isInput ? "in" : "out")} {PortNames.Key(port)}";

    private static string NameOf(HeaderPiece header, HashSet<string> several) => several.Contains(KeyOf(header)) && !char.IsAsciiDigit(header.Ports[0][^1])
        ? header.Ports[0] + header.Number!.Value.ToString(CultureInfo.InvariantCulture) : header.Ports[0];

    private static IEnumerable<string> Ports(CombinationPiece combination) =>
        combination.Sets.SelectMany(static set => set).SelectMany(static group => group);

    // Each number must be that of one port.
    private static CombinationPiece Resolve(CombinationPiece combination, ILookup<int, string> byNumber)
    {
        ImmutableArray<ImmutableArray<string>> groups =
        [
            .. combination.Sets[0].Select(ImmutableArray<string> (group) =>
                [.. byNumber[int.Parse(group[0], CultureInfo.InvariantCulture)].DistinctBy(PortNames.Key)]),
        ];
        bool isClear = groups.All(static group => group.Length == 1);
        return isClear ? combination with { Sets = [groups] } : combination with { Rating = null };
    }

    private static UnclearPiece Unclear(HeaderPiece header)
    {
        UnclearPiece piece = new();
        piece.Place(header.First, header.End);
        return piece;
    }
}
