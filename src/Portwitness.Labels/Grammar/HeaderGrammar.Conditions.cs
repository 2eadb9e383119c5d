namespace Portwitness.Labels;

/// <content>Under which condition ratings hold: how many ports are in use.</content>
internal sealed partial class HeaderGrammar
{
    private const int MaxInCondition = 9;
    private const int MaxToEach = 16;

    /// <summary>"Single port:", "When two ports are used:", "Simultaneous use:": under which condition the ratings below hold.</summary>
    public ConditionPiece? Condition()
    {
        int first = reader.At;
        (int count, bool isAlone, bool isTogether, bool isOutput, bool isOpen) = (0, false, false, false, false);
        string kind = "";
        for (int i = 0; i < MaxInCondition; i++)
        {
            Token token = reader.Current;
            if ((isOutput && !isOpen && token.Kind == TokenKind.Open && BeginsCondition(reader.Peek(1))) || (isOpen && token.Kind == TokenKind.Close))
            {
                // "Output (single):".
                isOpen = token.Kind == TokenKind.Open;
                reader.At++;
                continue;
            }

            int number = token is { Kind: TokenKind.Number, Value: > 0 and <= 8000 } && token.Value % 1000 == 0
                && (reader.Peek(1).Term is Term.Port or Term.Usb || IsHyphenated()) ? token.Value / 1000 : 0;
            count = number > 0 ? number : token.Counts > 0 ? token.Counts : count;
            isAlone |= token.Term == Term.Alone;
            isTogether |= token.Term is Term.Together or Term.Many or Term.Shared;
            isOutput |= token.Term == Term.Output;
            bool isPart = number > 0 || token.Counts > 0 || token.Term is Term.Many or Term.Together or Term.Shared or Term.Alone or Term.Use
                or Term.Port or Term.Output or Term.At or Term.Article or Term.Usb
                || (token.Term == Term.Heading && (i == 0 || reader.Peek(1).Kind == TokenKind.Colon)) || (i > 0 && token.Term == Term.From) || (token.Kind == TokenKind.Comma && reader.Peek(1).Term == Term.Use && reader.Peek(2).Kind == TokenKind.Colon) || (token.Kind == TokenKind.Dash && reader.Peek(1).Term == Term.Port)
                || (token.Kind == TokenKind.Slash && (reader.Peek(1).Counts > 0 || reader.Peek(1).Term is Term.Together or Term.Shared or Term.Many or Term.Alone));
            if (!isPart && count > 1 && kind.Length == 0 && token.Term == Term.PortName && !IsOfEach() && PortNames.Shorten(token.Word) is [var letter]
                && (reader.Peek(1).Kind == TokenKind.Colon || reader.Peek(1).Term is Term.Port or Term.Use or Term.Together))
            {
                // "Dual USB-C: 45W+20W".
                kind = letter.ToString();
                reader.At++;
                continue;
            }

            isPart |= (isAlone || isTogether || count > 0) && token.Term is Term.MaximumOutput or Term.Maximum && reader.Peek(1).Kind is TokenKind.Colon;
            if (!isPart || (token.Term == Term.Usb && reader.Peek(1).Term is not (Term.Port or Term.Use or Term.Output or Term.Together or Term.Shared)))
            {
                break;
            }

            reader.At++;
        }

        bool isMarked = reader.SkipMark() || (reader.At > first && SkipComma());
        bool areNamed = !isMarked && !isTogether && !isAlone && count > 1 && reader.Current.Term == Term.PortName && IsOfEach();
        bool isCondition = (isAlone || isTogether || count > 0) && reader.At > first && !isOpen && !areNamed;
        bool ends = isMarked || reader.IsAtLineEnd || reader.Current.Kind is TokenKind.Open or TokenKind.Quantity or TokenKind.Stop
            || reader.Current.Term is Term.PortName or Term.Usb or Term.ConnectorType or Term.Cable or Term.Total or Term.Maximum or Term.UpTo
                or Term.MaximumOutput or Term.Shared;
        return isCondition && ends
            ? reader.Placed(new ConditionPiece(count, (isAlone && !isTogether && count < 2) || count == 1, isOutput, isMarked) { Kind = kind, IsShared = reader.Peek(-1).Term is Term.Shared or Term.Together }, first)
            : reader.Back<ConditionPiece>(first);
    }

    // "Both USB-A sockets: 5V⎓2.4A each" are two ports.
    private bool IsOfEach()
    {
        int ahead = 0;
        while (ahead < MaxToEach && reader.Peek(ahead).Kind is not (TokenKind.Break or TokenKind.Semicolon or TokenKind.Bar) && reader.Peek(ahead).Term != Term.Each)
        {
            ahead++;
        }

        return reader.Peek(ahead).Term == Term.Each;
    }

    // "2-port".
    private bool IsHyphenated() => reader.Peek(1).Kind == TokenKind.Dash && reader.Peek(2).Term == Term.Port;

    // "With both ports in use, C1 drops to 45W": the comma ends the condition where a port comes next.
    private bool SkipComma()
    {
        int ahead = reader.Peek(1).Term is Term.Gives or Term.Article ? 2 : 1;
        bool isMark = reader.Current.Kind == TokenKind.Comma
            && reader.Peek(ahead) is { Term: Term.PortName or Term.Usb } && reader.Peek(-1).Kind == TokenKind.Word;
        reader.At += isMark ? ahead : 0;
        return isMark;
    }

    /// <summary>Whether a word says how many ports are in use.</summary>
    public static bool BeginsCondition(Token token) => token.Counts > 0 || token.Term is Term.Alone or Term.Many or Term.Together;
}
