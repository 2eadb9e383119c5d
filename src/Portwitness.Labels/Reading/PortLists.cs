namespace Portwitness.Labels;

/// <summary>
/// "Ports: 2 × USB-C, 1 × USB-A" says which ports there are. It rates nothing, unless it stands over ratings that name no port
/// themselves: then it says whose those are.
/// </summary>
internal static class PortLists
{
    // "Number of output ports:".
    private const int MaxInHead = 5;

    /// <summary>The kind of a line that is a list of ports and nothing else; null for any other. Inputs that are listed are no ports that give.</summary>
    /// <param name="line">The line.</param>
    /// <param name="below">All that is printed below it.</param>
    public static LineKind? KindOf(ReadOnlySpan<Token> line, ReadOnlySpan<Token> below)
    {
        int colon = 0;
        (bool hasHead, bool isOfInput) = (false, false);
        while (colon < line.Length && colon <= MaxInHead && line[colon].Term is Term.Port or Term.Heading or Term.Output or Term.Input or Term.Nothing
            or Term.Article or Term.Product)
        {
            hasHead |= line[colon].Term is Term.Port or Term.Heading or Term.Output or Term.Input;
            isOfInput |= line[colon].Term == Term.Input;
            colon++;
        }

        bool isList = hasHead && colon < line.Length && line[colon].Kind == TokenKind.Colon && AreAll(line[(colon + 1)..]) && BeginsAnother(below, isOfInput);
        return !isList ? null : isOfInput ? LineKind.Plain : LineKind.Ports;
    }

    /// <summary>How many ports a list has: "2 × USB-C, 1 × USB-A" and "2C1A" have three.</summary>
    public static int Count(List<Token> list)
    {
        (int all, int times, bool isNamed) = (0, 1, false);
        for (int i = list.FindIndex(static token => token.Kind == TokenKind.Colon) + 1; i < list.Count; i++)
        {
            Token token = list[i];
            if (token.Kind is TokenKind.Comma or TokenKind.Slash or TokenKind.Plus or TokenKind.Bullet or TokenKind.Semicolon || token.Term == Term.And)
            {
                all += isNamed ? times : 0;
                (times, isNamed) = (1, false);
            }

            isNamed |= token.Term is Term.PortName or Term.Usb;
            times = token.Counts > 0 ? token.Counts : PortGrammar.IsCount(token) ? token.Value / 1000 : times;
            all += token.Kind == TokenKind.Kinds ? token.Word.Where(char.IsAsciiDigit).Sum(static digit => digit - '0') : 0;
        }

        return all + (isNamed ? times : 0);
    }

    /// <summary>Several of them may say by turns whose the ratings between them are: then they are no lists.</summary>
    public static LineKind[] WithoutRepeated(LineKind[] kinds)
    {
        if (Array.IndexOf(kinds, LineKind.Ports) != Array.LastIndexOf(kinds, LineKind.Ports))
        {
            Array.ForEach(Enumerable.Range(0, kinds.Length).ToArray(), i => kinds[i] = kinds[i] == LineKind.Ports ? LineKind.Rating : kinds[i]);
        }

        return kinds;
    }

    // Names of ports, how many there are of each, and what stands between them.
    private static bool AreAll(ReadOnlySpan<Token> list)
    {
        bool hasName = false;
        foreach (Token token in list)
        {
            hasName |= token.Term is Term.PortName or Term.Usb || token.Kind == TokenKind.Kinds;
            bool isPart = token.Term is Term.PortName or Term.Usb or Term.ConnectorType or Term.Port or Term.Times or Term.And or Term.Nothing
                or Term.PowerDelivery or Term.Article || token.Counts > 0 || PortGrammar.IsCount(token)
                || token.Kind is TokenKind.Kinds or TokenKind.Comma or TokenKind.Slash or TokenKind.Plus or TokenKind.Bullet or TokenKind.Open
                    or TokenKind.Close or TokenKind.Semicolon or TokenKind.Stop;
            if (!isPart)
            {
                return false;
            }
        }

        return hasName;
    }

    private static bool BeginsAnother(ReadOnlySpan<Token> below, bool isOfInput)
    {
        int next = 0;
        while (next < below.Length && below[next].Kind is TokenKind.Break or TokenKind.Bullet or TokenKind.Open or TokenKind.Bar)
        {
            next++;
        }

        // Below a list of inputs a port without a direction may be one of them.
        int behind = next;
        while (isOfInput && behind < below.Length && below[behind].Term is Term.PortName or Term.Usb or Term.ConnectorType or Term.Port)
        {
            behind++;
        }

        return next == below.Length || (behind > next && behind < below.Length && below[behind].Term is Term.Input or Term.Output or Term.BothWays)
            || (behind == next && BeginsStatement(below[next]));
    }

    private static bool BeginsStatement(Token first) => first.Term is Term.Input or Term.Output or Term.BothWays or Term.Total or Term.PortName or Term.Usb
        or Term.Battery or Term.RatedCapacity or Term.Energy or Term.Remark or Term.Product or Term.Nothing or Term.Caution or Term.Alone
        or Term.Together or Term.Two or Term.Three or Term.Four or Term.Efficiency or Term.NoLoad or Term.Wireless or Term.Cable;
}
