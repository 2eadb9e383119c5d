using System.Collections.Immutable;

namespace Portwitness.Labels;

/// <summary>Printed efficiencies and no-load powers, and wireless pads.</summary>
internal sealed class PerformanceGrammar(TokenReader reader, PortGrammar ports, ModeGrammar modes)
{
    private const int MaxInCondition = 5;
    private const int MaxPowers = 9;

    // 10 %, (EU) 2019/1782 Annex II 2(b). [1/1000 %]
    private const int LowLoad = 10_000;

    /// <summary>"Average active efficiency: 88.5 %", "No-load power: ≤ 0.1 W".</summary>
    public PerformancePiece? Performance()
    {
        int first = reader.At;
        Token word = reader.Current;
        reader.At++;
        int condition = reader.At;
        SkipCondition();
        bool isOfLoad = word.Term is Term.Conversion or Term.Efficiency && reader.Peek(-1).Is(Dimension.Ratio) && reader.Skip(Term.LowLoad);
        Token[] said = [.. Enumerable.Range(condition - reader.At, reader.At - condition).Select(reader.Peek)];
        Token? ratio = Array.Find(said, static token => token.Is(Dimension.Ratio));
        if (isOfLoad || (word.Term == Term.Efficiency && (ratio is not null || Array.Exists(said, static token => token.Term == Term.LowLoad))))
        {
            // "Efficiency at 10 % load", "efficiency (load 10 %)"; at another load it is another figure.
            word = word with { Term = ratio is null or { Value: LowLoad } ? Term.LowLoad : Term.None };
        }
        else if (word.Term == Term.LowLoad)
        {
            // "At low load (10 %), efficiency: 80 %".
            reader.SkipWords(1, Term.Efficiency);
        }

        if (word.Term == Term.None)
        {
            return reader.Back<PerformancePiece>(first);
        }

        reader.SkipMark();
        reader.Skip(TokenKind.Bound);
        reader.SkipWords(2, Term.Maximum, Term.UpTo, Term.Typical);
        Token? value = word.Term == Term.NoLoad ? reader.Take(Dimension.Power) : reader.Take(Dimension.Ratio);
        reader.SkipWords(1, Term.UpTo, Term.Typical, Term.Maximum);
        SkipModeBehind();
        return value is null ? reader.Back<PerformancePiece>(first) : reader.Placed(new PerformancePiece(KindOf(word.Term), value), first);
    }

    /// <summary>"10 % load efficiency: 79.8 %".</summary>
    public PerformancePiece? AtRatio()
    {
        int first = reader.At;
        return reader.Take(Dimension.Ratio) is { Value: LowLoad } && reader.Current.Term == Term.LowLoad && Performance() is { } piece
            ? reader.Placed(piece with { }, first) : reader.Back<PerformancePiece>(first);
    }

    /// <summary>"Output (wireless): 15W".</summary>
    public PadPiece? PadBehind()
    {
        int first = reader.At++;
        bool isOpen = reader.Skip(TokenKind.Open);
        bool isPad = reader.Current.Term == Term.Wireless && (!isOpen || reader.Peek(1).Kind == TokenKind.Close);
        return isPad && Pad(isOpen) is { } pad ? reader.Placed(pad with { }, first) : reader.Back<PadPiece>(first);
    }

    /// <summary>"Wireless: 5W/7.5W/10W/15W Max", "5 / 7.5 / 10 W".</summary>
    /// <param name="isClosed">A parenthesis ends behind the name.</param>
    public PadPiece? Pad(bool isClosed = false)
    {
        int first = reader.At;
        string? name = ports.Pad();
        reader.At += isClosed && reader.Current.Kind == TokenKind.Close ? 1 : 0;
        reader.SkipWords(2, Term.Output, Term.Maximum, Term.UpTo, Term.MaximumOutput, Term.Heading);
        reader.SkipMark();
        bool isOpen = reader.Skip(TokenKind.Open);
        ImmutableArray<int>.Builder powers = ImmutableArray.CreateBuilder<int>();
        bool isComplete = false;
        while (name is not null && powers.Count < MaxPowers)
        {
            int at = reader.At;
            if (powers.Count > 0 && !(reader.Skip(TokenKind.Slash) || reader.Skip(TokenKind.Comma) || reader.Skip(TokenKind.Bullet) || reader.Skip(Term.Or)
                || reader.Current.Is(Dimension.Power) || reader.Current.Kind == TokenKind.Open))
            {
                break;
            }

            // "7.5" in "5/7.5/10W".
            bool isNumber = reader.Current.Kind == TokenKind.Number && reader.Peek(1).Kind == TokenKind.Slash;
            int? value = isNumber ? reader.Take(TokenKind.Number)!.Value : modes.Power()?.Watts.Value;
            if (value is null)
            {
                reader.At = at;
                break;
            }

            isComplete = !isNumber;
            if (!powers.Contains(value.Value))
            {
                powers.Add(value.Value);
            }
        }

        reader.At += isOpen && reader.Current.Kind == TokenKind.Close ? 1 : 0;
        modes.MaximumBehind();
        return isComplete ? reader.Placed(new PadPiece(name!, powers.ToImmutable()), first) : reader.Back<PadPiece>(first);
    }

    // "(10 %)", "at 10 %", "(115V 60Hz)": under which condition; it stays part of the printed words.
    private void SkipCondition()
    {
        int first = reader.At;
        if (reader.Skip(TokenKind.Open))
        {
            for (int i = 0; i < MaxInCondition && reader.Current.Kind is not (TokenKind.Open or TokenKind.Close or TokenKind.Break); i++)
            {
                reader.At++;
            }

            reader.At = reader.Skip(TokenKind.Close) ? reader.At : first;
        }
        else if (reader.Current.Is(Dimension.Ratio) && reader.Peek(1).Kind == TokenKind.Colon)
        {
            reader.At++;
        }
        else if ((reader.Skip(TokenKind.At) || reader.Skip(Term.At) || reader.Skip(Term.To))
            && reader.Take(Dimension.Ratio) is null)
        {
            reader.At = first;
        }
    }

    // "65 % (5V 3A)".
    private void SkipModeBehind()
    {
        int first = reader.At;
        reader.At = reader.Skip(TokenKind.Open) && modes.Mode() is not null && reader.SkipWords(2, Term.Output, Term.Use) >= 0 && reader.Skip(TokenKind.Close)
            ? reader.At : first;
    }

    private static PerformanceKind KindOf(Term term) => term switch
    {
        Term.LowLoad => PerformanceKind.LowLoadEfficiency,
        Term.NoLoad => PerformanceKind.NoLoadPower,
        Term.Conversion => PerformanceKind.ConversionEfficiency,
        _ => PerformanceKind.AverageEfficiency,
    };
}
