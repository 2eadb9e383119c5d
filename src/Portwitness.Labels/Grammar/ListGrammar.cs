using System.Collections.Immutable;

namespace Portwitness.Labels;

/// <summary>
/// Lists beside lists: "5V/9V/12V⎓3A/2.22A/1.67A" is three modes, and so is "5V/9V/15V⎓3A". Lists that do not pair are nobody's.
/// </summary>
internal sealed class ListGrammar(TokenReader reader)
{
    private const int Most = 12;

    // USB ends at 48 V; above it is mains.
    private const int HighestVoltage = 60_000;

    /// <summary>Several voltages and their currents; an <see cref="UnclearPiece"/> where they do not pair.</summary>
    public Piece? Modes()
    {
        int first = reader.At;
        reader.SkipDirects();
        (List<Token> volts, bool areSlashed) = Run(Dimension.Voltage);
        if (volts.Count < 2 || volts.Exists(static one => one.Value > HighestVoltage))
        {
            return reader.Back<Piece>(first);
        }

        reader.SkipDirects();
        if (reader.Current.Kind is TokenKind.Colon or TokenKind.At or TokenKind.Slash
            || (reader.Current.Kind is TokenKind.Dash or TokenKind.Comma && (reader.Peek(1).Is(Dimension.Current) || reader.Peek(1).Term == Term.Each
                || (reader.Peek(1).Kind == TokenKind.Number && reader.Peek(2).Kind == TokenKind.Slash))))
        {
            reader.At++;
        }

        else if (reader.Current.Kind == TokenKind.Comma && reader.Peek(1).Term == Term.Maximum
            && reader.Peek(2).Is(Dimension.Current))
        {
            // "5/9/15 V, max. 3 A".
            reader.At += 2;
        }

        // "5 V / 9 V / 15 V at 3 A each".
        int words = reader.At;
        bool isEach = reader.SkipWords(1, Term.At, Term.To, Term.Use) > 0;
        isEach |= reader.SkipEach(1);
        reader.At = reader.Current.Is(Dimension.Current) ? reader.At : words;
        (List<Token> amps, _) = Run(Dimension.Current);
        isEach |= amps.Count == 1 && reader.SkipEach(1);
        reader.At += amps.Count == 1 && reader.Current.Term == Term.Maximum && reader.Peek(1).Kind is TokenKind.Comma
            or TokenKind.Stop or TokenKind.Break ? 1 : 0;
        if (amps.Count == 0)
        {
            return reader.Back<Piece>(first);
        }

        bool isPaired = amps.Count == volts.Count || (amps.Count == 1 && (areSlashed || isEach));
        bool isRising = volts.Zip(volts.Skip(1)).All(static pair => pair.First.Value < pair.Second.Value);
        if (!isPaired || !isRising)
        {
            return reader.Placed(new UnclearPiece(), first);
        }

        List<Token> watts = WattsBehind(volts.Count);
        ImmutableArray<ModePiece> modes =
        [
            .. volts.Select((one, i) => new ModePiece(
                one, amps.Count == 1 ? amps[0] : amps[i], watts.Count > 0 ? watts[i] : null, IsMaximum: false) { IsApart = true }),
        ];
        foreach (ModePiece mode in modes)
        {
            reader.Placed(mode, first);
        }

        return reader.Placed(new ModeListPiece(modes), first);
    }

    /// <summary>Quantities of one dimension only, to the end of the line: a row of an information sheet.</summary>
    public RowPiece? Row()
    {
        int first = reader.At;
        reader.SkipDirects();
        reader.SkipWords(1, Term.Maximum, Term.UpTo);
        Dimension dimension = reader.Current.Kind == TokenKind.Number ? Ahead() : reader.Current.Dimension;
        if (dimension is not (Dimension.Voltage or Dimension.Current or Dimension.Power or Dimension.Frequency))
        {
            return reader.Back<RowPiece>(first);
        }

        (List<Token> values, _) = Run(dimension, mayBeAlternatives: true);
        reader.SkipDirects();
        reader.SkipWords(1, Term.Maximum);
        reader.At += reader.Current.Kind == TokenKind.Open && reader.Peek(1).Term == Term.Maximum && reader.Peek(2).Kind == TokenKind.Close ? 3 : 0;
        return values.Count > 0 && reader.IsAtLineEnd
            ? reader.Placed(new RowPiece(dimension, [.. values]), first) : reader.Back<RowPiece>(first);
    }

    /// <summary>"Output power: 15.0 W / 18.0 W".</summary>
    public RowPiece? PowerRow()
    {
        int first = reader.At;
        reader.At++;
        reader.SkipMark();
        return Row() is { Dimension: Dimension.Power, Values.Length: > 1 } row ? reader.Placed(new RowPiece(row.Dimension, row.Values), first) : reader.Back<RowPiece>(first);
    }

    /// <summary>"Frequency: 50/60 Hz" on a line of its own.</summary>
    public RowPiece? FrequencyRow()
    {
        int first = reader.At;
        reader.At++;
        reader.SkipMark();
        return Row() is { Dimension: Dimension.Frequency } row
            ? reader.Placed(new RowPiece(row.Dimension, row.Values), first) : reader.Back<RowPiece>(first);
    }

    /// <summary>"65W / 30W / 18W": one for each of several ports.</summary>
    public RowPiece? Powers()
    {
        int first = reader.At;
        (List<Token> watts, _) = reader.Current.Is(Dimension.Power) ? Run(Dimension.Power) : ([], false);
        return watts.Count > 1 && reader.IsAtLineEnd && watts.TrueForAll(static one => one.Kind == TokenKind.Quantity) ? reader.Placed(new RowPiece(Dimension.Power, [.. watts]), first) : reader.Back<RowPiece>(first);
    }

    private Dimension Ahead()
    {
        int ahead = 0;
        while (ahead < 2 * Most && reader.Peek(ahead).Kind is TokenKind.Number or TokenKind.Slash)
        {
            ahead++;
        }

        return reader.Peek(ahead).Dimension;
    }

    // "5V/9V/12V", "5/9/12V", "5V 9V 12V": ends with a quantity; a number alone has a slash behind it.
    private (List<Token> Values, bool AreSlashed) Run(Dimension dimension, bool mayBeAlternatives = false)
    {
        List<Token> values = [];
        bool areSlashed = true;
        int end = reader.At;
        int complete = 0;
        while (values.Count < Most && (reader.Current.Is(dimension) || reader.Current.Kind == TokenKind.Number))
        {
            bool isNumber = reader.Current.Kind == TokenKind.Number;
            values.Add(reader.Current);
            reader.At++;
            if (!isNumber)
            {
                (end, complete) = (reader.At, values.Count);
            }

            // "5 V DC / 9 V DC".
            int direct = reader.At;
            if (reader.Current.Kind == TokenKind.Direct && reader.Peek(1).Kind == TokenKind.Slash && reader.Peek(2).Is(dimension))
            {
                direct++;
            }

            reader.At = direct;
            bool isSlash = reader.Skip(TokenKind.Slash);
            if (isNumber && !isSlash)
            {
                break;
            }

            bool isBar = reader.Current.Kind == TokenKind.Bar && reader.Peek(1).Is(dimension);
            reader.At += isBar ? 1 : 0;
            bool isMore = isSlash || isBar || reader.Skip(TokenKind.Comma) || (mayBeAlternatives
                && reader.Peek(1).Is(dimension) && reader.Skip(TokenKind.Semicolon)) || (reader.Peek(1).Is(dimension)
                && (reader.Skip(Term.And) || (mayBeAlternatives && reader.Skip(Term.Or))))
                || reader.Current.Is(dimension);
            areSlashed &= isSlash || !(reader.Current.Is(dimension) || reader.Current.Kind == TokenKind.Number);
            if (!isMore)
            {
                break;
            }
        }

        reader.At = end;
        values.RemoveRange(complete, values.Count - complete);
        return (values, areSlashed);
    }

    private List<Token> WattsBehind(int count)
    {
        int first = reader.At;
        if (reader.Current.Kind is TokenKind.Slash or TokenKind.Equals)
        {
            reader.At++;
        }

        (List<Token> watts, _) = Run(Dimension.Power);
        if (watts.Count != count || reader.Current.Term == Term.Maximum)
        {
            reader.At = first;
            return [];
        }

        return watts;
    }
}
