using System.Collections.Immutable;

namespace Portwitness.Labels;

/// <summary>Mains: "100-240V~ 50/60Hz 1.5A". An AC sign or a frequency must be printed.</summary>
internal sealed class MainsGrammar(TokenReader reader, ModeGrammar modes)
{
    private const int MaxItems = 6;

    public MainsPiece? Mains()
    {
        int first = reader.At;
        Mark(out bool isAlternating);
        if (isAlternating && reader.Current.Kind == TokenKind.Colon && reader.IsRangeSign(2))
        {
            // "Mains: 220-240V~": a range of voltages is an inlet's.
            reader.At++;
        }

        (Token? currentBefore, Token? powerBefore) = ValuesBefore();
        if (MainsVoltages() is not { } voltages)
        {
            return reader.Back<MainsPiece>(first);
        }

        Items items = new() { IsAlternating = isAlternating, Current = currentBefore, Power = powerBefore };
        for (int i = 0; i < MaxItems && Item(ref items); i++)
        {
        }

        return items is { IsAlternating: true, IsTwice: false }
            ? reader.Placed(new MainsPiece(voltages, items.Frequencies.IsDefault ? [] : items.Frequencies, items.Current, items.Power), first)
            : reader.Back<MainsPiece>(first);
    }

    private void Mark(out bool isAlternating)
    {
        isAlternating = false;
        for (int i = 0; i < 2 && reader.Current.Kind is TokenKind.Alternating or TokenKind.Tilde; i++)
        {
            isAlternating = true;
            reader.At++;
        }
    }

    // "16 A 250 V~", "max. 2500 W, 10 A, 250 V~".
    private (Token? Current, Token? Power) ValuesBefore()
    {
        int first = reader.At;
        (Token? current, Token? power) = (null, null);
        for (int i = 0; i < 2; i++)
        {
            reader.SkipWords(1, Term.Maximum, Term.UpTo);
            Token value = reader.Current;
            if (current is null && value.Is(Dimension.Current))
            {
                current = value;
            }
            else if (power is null && value.Is(Dimension.Power))
            {
                power = value;
            }
            else
            {
                break;
            }

            reader.At++;
            reader.At += reader.Current.Kind is TokenKind.Slash or TokenKind.Comma ? 1 : 0;
        }

        if (reader.Current.Is(Dimension.Voltage))
        {
            return (current, power);
        }

        reader.At = first;
        return (null, null);
    }

    // "115/230V": one or the other, where "100-240V" is anything between (IEC 60950-1 1.7.1).
    private ImmutableArray<(int Minimum, int Maximum)>? MainsVoltages()
    {
        if (modes.Voltages() is { } range)
        {
            return [range];
        }

        bool isPair = (reader.Current.Kind == TokenKind.Number || reader.Current.Is(Dimension.Voltage))
            && reader.Peek(1).Kind == TokenKind.Slash && reader.Peek(2).Is(Dimension.Voltage);
        if (isPair)
        {
            int first = reader.Current.Value;
            reader.At += 2;
            int second = reader.Take(Dimension.Voltage)!.Value;
            return [(first, first), (second, second)];
        }

        return reader.Take(Dimension.Voltage) is { } volts ? [(volts.Value, volts.Value)] : null;
    }

    // One thing that may follow an AC voltage.
    private bool Item(ref Items items)
    {
        int first = reader.At;
        bool isListed = reader.Current.Kind is TokenKind.Comma or TokenKind.Slash
            || ((reader.Current.Kind is TokenKind.Bullet or TokenKind.Semicolon or TokenKind.Bar
                || (reader.Current is { Kind: TokenKind.Dash, SpaceBefore: > 0 } && reader.Peek(1).SpaceBefore > 0)) && IsItemBehind());
        reader.At += isListed ? 1 : 0;
        if (items.IsAlternating && reader.Current.Term == Term.At && BeginsFrequency(1))
        {
            // "at 50/60 Hz".
            reader.At++;
        }

        // "Input voltage: 100-240V~ Input current: 1.5A".
        bool isNamed = reader.Current.Term is Term.Input or Term.Heading && reader.Peek(1).Kind == TokenKind.Colon
            && (reader.Peek(2).Dimension is Dimension.Frequency or Dimension.Current || reader.Peek(4).Is(Dimension.Frequency));
        reader.At += isNamed ? 2 : 0;
        if (!isNamed && reader.Current.Kind is TokenKind.Alternating or TokenKind.Tilde)
        {
            reader.At++;
            items.IsAlternating = true;
            return true;
        }

        // "240V- 50/60Hz", "240V-50/60Hz": a camera's dash for the sign.
        reader.At += reader.Current is { Kind: TokenKind.Dash, SpaceBefore: 0 } && BeginsFrequency(1) ? 1 : 0;
        int open = reader.At;
        bool isOpen = reader.Skip(TokenKind.Open);
        if (Frequencies() is { } hertz && reader.SkipWords(1, Term.Shared) >= 0 && (!isOpen || reader.Skip(TokenKind.Close)))
        {
            items.IsTwice |= !items.Frequencies.IsDefault;
            (items.Frequencies, items.IsAlternating) = (hertz, true);
            return true;
        }

        reader.At = open;
        reader.SkipWords(2, Term.Maximum, Term.UpTo);
        if (reader.Take(Dimension.Current) is { } amps)
        {
            items.IsTwice |= items.Current is not null;
            items.Current = amps;
            modes.MaximumBehind();
            return true;
        }

        if (reader.Take(Dimension.Power) is { } watts)
        {
            items.IsTwice |= items.Power is not null;
            items.Power = watts;
            modes.MaximumBehind();
            reader.SkipWords(1, Term.Total, Term.Shared);
            return true;
        }

        if (reader.Take(Dimension.ApparentPower) is not null)
        {
            return true;
        }

        reader.At = first;
        return false;
    }

    // "100-240 V~ • 50/60 Hz • 0.8 A".
    private bool IsItemBehind() => BeginsFrequency(1)
        || (reader.Peek(1).Is(Dimension.Current) && reader.Peek(2).Kind is TokenKind.Break or TokenKind.Bullet or TokenKind.Semicolon or TokenKind.Bar);

    // "50/60Hz", "50-60 Hz", "50 or 60 Hz", "60Hz".
    private ImmutableArray<int>? Frequencies()
    {
        Token low = reader.Current;
        bool isPair = IsPairOfFrequencies(0);
        reader.At += isPair ? 2 : 0;
        return reader.Take(Dimension.Frequency) is not { } high ? null
            : isPair ? [low.Kind == TokenKind.Number ? low.Value / 1000 : low.Value, high.Value] : [high.Value];
    }

    private bool BeginsFrequency(int ahead) => reader.Peek(ahead).Is(Dimension.Frequency) || IsPairOfFrequencies(ahead);

    private bool IsPairOfFrequencies(int ahead) => (reader.Peek(ahead).Kind == TokenKind.Number || reader.Peek(ahead).Is(Dimension.Frequency))
        && (reader.Peek(ahead + 1).Kind is TokenKind.Slash or TokenKind.Dash or TokenKind.Tilde || reader.Peek(ahead + 1).Term is Term.Or or Term.To or Term.And)
        && reader.Peek(ahead + 2).Is(Dimension.Frequency);

    private struct Items
    {
        public bool IsAlternating;
        public bool IsTwice;
        public ImmutableArray<int> Frequencies;
        public Token? Current;
        public Token? Power;
    }
}
