using System.Collections.Immutable;
using System.Globalization;

namespace Portwitness.Labels;

/// <content>Ports in lists.</content>
internal sealed partial class PortGrammar
{
    private const int MaxPorts = 16;
    private const int MaxCounted = 12;

    // "5V DC ⎓ 2.4A".
    private const int MaxInMode = 4;

    /// <summary>Whether "and" stands between the ports that were read last.</summary>
    public bool AreJoined { get; private set; }

    /// <summary>"C1/C2", "C1/2", "A1–A4", "USB-A×2", "2 x USB-A", "C1, C2:", "C1 or C2"; empty when no port is named.</summary>
    public ImmutableArray<string> Ports()
    {
        int first = reader.At;
        AreJoined = false;
        if (Counted() is { } counted)
        {
            return counted;
        }

        if (Port() is not { } port)
        {
            reader.At = first;
            return [];
        }

        if (Times(port) is { } times)
        {
            return times;
        }

        if (Numbers(port) is { } numbers)
        {
            return numbers;
        }

        if (Through(port) is { } through)
        {
            return through;
        }

        int single = reader.At;
        List<string> listed = [port];
        (bool areJoined, bool areAlternatives) = (false, true);
        while (listed.Count < MaxPorts)
        {
            areJoined |= reader.Current.Term == Term.And;
            bool isAlternative = reader.Current.Term == Term.Or;
            if (!SkipListSign() || Port() is not { } next)
            {
                break;
            }

            listed.Add(next);
            areAlternatives &= isAlternative;
        }

        // "C1 or C2 65W".
        if (listed.Count > 1 && (EndsList() || (areAlternatives && reader.Current.Is(Dimension.Power))))
        {
            AreJoined = areJoined;
            return [.. listed];
        }

        reader.At = single;
        return Slashed(port);
    }

    /// <summary>"C1 and C2", "C e A", and "C1, C2, A" in front of words of use; empty for one port.</summary>
    public ImmutableArray<string> Joined()
    {
        int first = reader.At;
        List<string> ports = [];
        (bool isListed, bool endsWithAnd) = (false, false);
        while (ports.Count < MaxPorts)
        {
            int at = reader.At;
            bool isAnd = reader.Current.Term == Term.And;
            isListed |= ports.Count > 0 && reader.Current.Kind is TokenKind.Comma or TokenKind.Bullet;
            if ((ports.Count > 0 && !reader.Skip(Term.And) && !reader.Skip(TokenKind.Comma) && !reader.Skip(TokenKind.Bullet)) || Port() is not { } port)
            {
                reader.At = at;
                break;
            }

            ports.Add(port);
            endsWithAnd = isAnd;
        }

        if (ports.Count > 1 && (!isListed || endsWithAnd || reader.Current.Term is Term.Use or Term.Together or Term.Shared or Term.Total))
        {
            return [.. ports];
        }

        reader.At = first;
        return [];
    }

    // "2 x USB-A", "3 ports USB-A", "3 USB-A ports".
    private ImmutableArray<string>? Counted()
    {
        int first = reader.At;
        Token count = reader.Current;
        count = count.Counts > 0 ? count with { Kind = TokenKind.Number, Value = count.Counts * 1000 } : count;
        if (IsCount(count) && count.Value / 1000 <= MaxCounted && reader.Peek(1).Term == Term.Times)
        {
            reader.At += 2;
            if (Port() is { } port && !char.IsAsciiDigit(port[^1]))
            {
                return Numbered(port, 1, count.Value / 1000);
            }
        }
        else if (IsCount(count) && count.Value / 1000 is > 1 and <= MaxCounted && reader.Peek(1).Term is Term.Port or Term.Usb or Term.PortName)
        {
            reader.At++;
            bool isCount = reader.Skip(Term.Port);
            if (Port() is { } port && !char.IsAsciiDigit(port[^1]) && (isCount || reader.Peek(-1).Term == Term.Port))
            {
                return Numbered(port, 1, count.Value / 1000);
            }
        }

        reader.At = first;
        return null;
    }

    // "USB-A 1 and 2:", "USB-C 1/2:".
    private ImmutableArray<string>? Numbers(string port)
    {
        if (!IsCount(reader.Current) || char.IsAsciiDigit(port[^1]))
        {
            return null;
        }

        int first = reader.At;
        if (reader.IsRangeSign(1) && IsCount(reader.Peek(2)) && reader.Peek(3).Kind == TokenKind.Colon
            && reader.Peek(2).Value > reader.Current.Value && reader.Peek(2).Value - reader.Current.Value < MaxCounted * 1000)
        {
            // "USB-A 1–4:".
            (int from, int to) = (reader.Current.Value / 1000, reader.Peek(2).Value / 1000);
            reader.At += 3;
            return Numbered(port, from, to);
        }

        List<string> names = [];
        while (names.Count < MaxPorts && Count() is { } number)
        {
            names.Add(port + number.ToString(CultureInfo.InvariantCulture));
            if (!reader.Skip(TokenKind.Slash) && !SkipListSign())
            {
                break;
            }
        }

        if (names.Count > 1 && EndsList())
        {
            return [.. names];
        }

        reader.At = first;
        return null;
    }

    // "USB-A×2", "USB-A (×2)".
    private ImmutableArray<string>? Times(string port)
    {
        int open = reader.Current.Kind == TokenKind.Open && reader.Peek(3).Kind == TokenKind.Close ? 1 : 0;
        Token count = reader.Peek(1 + open);
        if (reader.Peek(open).Term != Term.Times || !IsCount(count) || count.Value / 1000 > MaxCounted || char.IsAsciiDigit(port[^1]))
        {
            return null;
        }

        reader.At += 2 + (2 * open);
        reader.SkipWords(1, Term.Port);
        return Numbered(port, 1, count.Value / 1000);
    }

    // "A1–A4", "C1~3".
    private ImmutableArray<string>? Through(string port)
    {
        int first = reader.At;
        string letters = Letters(port);
        bool isRange = letters.Length < port.Length && reader.IsRangeSign();
        reader.At += isRange ? 1 : 0;
        Token number = reader.Current;
        bool isNumber = isRange && IsCount(number);
        reader.At += isNumber ? 1 : 0;
        string? last = !isRange ? null : isNumber ? letters + (number.Value / 1000).ToString(CultureInfo.InvariantCulture) : Port();
        if (last is not null && Letters(last) == letters
            && int.TryParse(port.AsSpan(letters.Length), out int from) && int.TryParse(last.AsSpan(letters.Length), out int to)
            && from < to && to - from < MaxCounted)
        {
            return Numbered(letters, from, to);
        }

        reader.At = first;
        return null;
    }

    // One alone keeps its name.
    private static ImmutableArray<string> Numbered(string letters, int from, int to) => from == to && from == 1
        ? [letters] : [.. Enumerable.Range(from, to - from + 1).Select(i => letters + i.ToString(CultureInfo.InvariantCulture))];

    private static string Letters(string port) => port.TrimEnd('0', '1', '2', '3', '4', '5', '6', '7', '8', '9');

    private bool SkipListSign() => reader.Skip(TokenKind.Comma) || reader.Skip(TokenKind.Bullet) || reader.SkipWords(1, Term.Or, Term.And) > 0;

    // Without a colon or the like the comma may separate anything.
    private bool EndsList() => reader.Current.Kind is TokenKind.Colon or TokenKind.Equals or TokenKind.Open
        || reader.Current.Term is Term.Output or Term.Input or Term.BothWays or Term.Each or Term.Maximum or Term.UpTo or Term.To or Term.Alone
        || (reader.Current.Kind == TokenKind.Close && reader.Peek(1).Kind == TokenKind.Colon) || IsEachBehind();

    // "USB-A1, USB-A2 5V⎓2.4A each".
    private bool IsEachBehind()
    {
        int ahead = 0;
        while (ahead < MaxInMode && reader.Peek(ahead).Kind is TokenKind.Quantity or TokenKind.Direct or TokenKind.Slash)
        {
            ahead++;
        }

        return ahead > 0 && reader.Peek(ahead).Term == Term.Each;
    }

    // A bare number takes the letters of the first port.
    private ImmutableArray<string> Slashed(string first)
    {
        List<string> ports = [first];
        string letters = Letters(first);
        while (ports.Count < MaxPorts)
        {
            int at = reader.At;
            bool isSlash = reader.Skip(TokenKind.Slash);
            Token number = reader.Current;
            bool isNumber = isSlash && IsCount(number);
            string? next = !isSlash ? null : isNumber ? letters + (number.Value / 1000).ToString(CultureInfo.InvariantCulture) : Port();
            if (isNumber && letters.Length == first.Length)
            {
                return [];
            }

            reader.At += isNumber ? 1 : 0;
            if (next is null)
            {
                reader.At = at;
                break;
            }

            // "cord/cable" is one.
            if (!(IsCable(next) && IsCable(ports[^1])))
            {
                ports.Add(next);
            }
        }

        return [.. ports];
    }
}
