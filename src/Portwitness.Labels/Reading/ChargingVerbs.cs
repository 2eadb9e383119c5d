namespace Portwitness.Labels;

/// <summary>
/// "USB-C1 gets 30 W", "charges at", "laden Sie": of a charger that is what a port gives. A pack has two directions, and such a verb
/// names neither: it is a word that is not known there.
/// </summary>
internal static class ChargingVerbs
{
    /// <summary>Settles what the verbs of a label mean.</summary>
    public static List<Token> Settle(List<Token> tokens)
    {
        bool isOfPack = tokens.Exists(static token => token.Is(Dimension.Charge) || token.Is(Dimension.Energy) || token.Term == Term.Battery);
        for (int at = 0; at < tokens.Count; at++)
        {
            if (tokens[at].Term == Term.Gets)
            {
                tokens[at] = tokens[at] with { Term = isOfPack ? Term.None : Term.Gives };
            }
        }

        return tokens;
    }
}
