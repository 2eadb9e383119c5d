using System.Collections.Immutable;

namespace Portwitness.Labels;

/// <summary>Printed efficiencies and no-load powers, and wireless pads.</summary>
internal sealed class PerformanceGrammar(TokenReader reader, PortGrammar ports, ModeGrammar modes)
{
    private const int MostInCondition = 5;
    private const int MostPowers = 9;

    /// <summary>"Average active efficiency: 88.5 %", "No-load power: ≤ 0.1 W".</summary>
    public PerformancePiece? Performance()
    {
        int first = reader.At;
        Token word = reader.Current;
        reader.At++;
        SkipCondition();
        reader.SkipMark();
        reader.Skip(TokenKind.Bound);
        reader.SkipWords(2, Term.Maximum, Term.UpTo, Term.Typical);
        Token? value = word.Term == Term.NoLoad ? reader.Take(Dimension.Power) : reader.Take(Dimension.Ratio);
        reader.SkipWords(1, Term.UpTo, Term.Typical, Term.Maximum);
        return value is null ? reader.Back<PerformancePiece>(first) : reader.Placed(new PerformancePiece(KindOf(word.Term), value), first);
    }

    /// <summary>"Wireless: 5W/7.5W/10W/15W Max", "5 / 7.5 / 10 W".</summary>
    public PadPiece? Pad()
    {
        int first = reader.At;
        string? name = ports.Pad();
        reader.SkipWords(2, Term.Output, Term.Maximum, Term.UpTo);
        reader.SkipMark();
        bool isOpen = reader.Skip(TokenKind.Open);
        ImmutableArray<int>.Builder powers = ImmutableArray.CreateBuilder<int>();
        bool isComplete = false;
        while (name is not null && powers.Count < MostPowers)
        {
            int at = reader.At;
            if (powers.Count > 0 && !(reader.Skip(TokenKind.Slash) || reader.Skip(TokenKind.Comma) || reader.Skip(Term.Or)
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
            for (int i = 0; i < MostInCondition && reader.Current.Kind is not (TokenKind.Open or TokenKind.Close or TokenKind.Break); i++)
            {
                reader.At++;
            }

            reader.At = reader.Skip(TokenKind.Close) ? reader.At : first;
        }
        else if (reader.Current.Is(Dimension.Ratio) && reader.Peek(1).Kind == TokenKind.Colon)
        {
            reader.At++;
        }
        else if ((reader.Skip(TokenKind.At) || reader.Skip(Term.At)) && reader.Take(Dimension.Ratio) is null)
        {
            reader.At = first;
        }
    }

    private static PerformanceKind KindOf(Term term) => term switch
    {
        Term.LowLoad => PerformanceKind.LowLoadEfficiency,
        Term.NoLoad => PerformanceKind.NoLoadPower,
        Term.Conversion => PerformanceKind.ConversionEfficiency,
        _ => PerformanceKind.AverageEfficiency,
    };
}
