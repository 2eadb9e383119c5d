namespace Portwitness.Labels;

/// <content>Words around the rating of a combination.</content>
internal sealed partial class CombinationGrammar
{
    // "(2 ports in use)" behind a rating: what the plus says anyway.
    private void UseBehind(int ports)
    {
        int first = reader.At;
        bool isSame = reader.Skip(TokenKind.Open);
        int words = 0;
        while (isSame && words < MaxWords && (reader.Current.Counts > 0 || PortGrammar.IsCount(reader.Current)
            || reader.Current.Term is Term.Together or Term.Use or Term.Port or Term.At or Term.Many))
        {
            int count = reader.Current.Counts > 0 ? reader.Current.Counts : PortGrammar.IsCount(reader.Current) ? reader.Current.Value / 1000 : ports;
            isSame = count == ports;
            reader.At++;
            words++;
        }

        reader.At = isSame && words > 0 && reader.Skip(TokenKind.Close) ? reader.At : first;
    }

    // Words between the ports and their rating; true when they say that it is shared.
    private bool HeadWords()
    {
        bool isShared = false;
        int first = reader.At;
        bool isOpen = reader.Skip(TokenKind.Open);
        for (int i = 0; i < MaxWords; i++)
        {
            if (reader.Current.Term is not (Term.Output or Term.Shared or Term.Total or Term.Maximum or Term.MaximumOutput or Term.Together
                or Term.Use or Term.Alone or Term.At or Term.Heading or Term.Article or Term.Port or Term.Two or Term.Three or Term.Four))
            {
                break;
            }

            isShared |= reader.Current.Term is Term.Shared or Term.Total or Term.Maximum or Term.MaximumOutput;
            reader.At++;
        }

        if (isOpen && !reader.Skip(TokenKind.Close))
        {
            reader.At = first;
            return false;
        }

        return isShared;
    }
}
