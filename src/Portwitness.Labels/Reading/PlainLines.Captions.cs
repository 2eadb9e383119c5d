namespace Portwitness.Labels;

/// <content>Lines that name ports or quantities and rate nothing.</content>
internal static partial class PlainLines
{
    // "Technical data:" says nothing of what is below; "Charging power:" may.
    private static bool IsOfNoQuantity(ReadOnlySpan<Token> line)
    {
        foreach (Token token in line)
        {
            if (token.Term == Term.Heading && HeadingWords.PartsOf(token) is not (Part.None or Part.Value))
            {
                return false;
            }
        }

        return true;
    }

    // "Power distribution C1/C2/A": of all of them.
    private static bool IsCaption(ReadOnlySpan<Token> line)
    {
        int ports = 0;
        foreach (Token token in line)
        {
            ports += token.Term == Term.PortName ? 1 : 0;
            if (token.Term is not (Term.Heading or Term.Article or Term.PortName or Term.Usb) && token.Kind is not (TokenKind.Slash or TokenKind.Colon or TokenKind.Open or TokenKind.Close))
            {
                return false;
            }
        }

        return ports > 1 && line[0].Term == Term.Heading && line[^1].Kind != TokenKind.Colon;
    }

    // "Ports: 2x USB-C, 1x USB-A": what there is, and not what it gives.
    private static bool IsCountOfPorts(ReadOnlySpan<Token> line)
    {
        bool hasCount = false;
        foreach (Token token in line)
        {
            hasCount |= token.Term == Term.Times;
            if (token.Kind is not (TokenKind.Number or TokenKind.Comma or TokenKind.Plus or TokenKind.Slash or TokenKind.Colon or TokenKind.Bullet)
                && token.Term is not (Term.Times or Term.Usb or Term.PortName or Term.ConnectorType or Term.Port or Term.And or Term.Output))
            {
                return false;
            }
        }

        return hasCount && line[0].Kind == TokenKind.Colon;
    }
}
