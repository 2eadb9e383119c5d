using System.Collections.Immutable;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Labels;

/// <summary>Collects what was read, and knows which tokens were.</summary>
internal sealed class LabelBuilder(FoldedText folded, List<Token> tokens)
{
    // What a socket is called that the label does not name.
    private const string Socket = "AC";

    private readonly string _text = folded.Printed;
    private readonly Places _places = new(folded.Printed);
    private readonly bool[] _isRead = new bool[tokens.Count];
    private readonly ImmutableArray<PrintedInput>.Builder _inputs = ImmutableArray.CreateBuilder<PrintedInput>();
    private readonly ImmutableArray<PrintedInputMaximum>.Builder _inputMaxima = ImmutableArray.CreateBuilder<PrintedInputMaximum>();
    private readonly ImmutableArray<UnfitSplit>.Builder _unfit = ImmutableArray.CreateBuilder<UnfitSplit>();
    private readonly ImmutableArray<PrintedPad>.Builder _pads = ImmutableArray.CreateBuilder<PrintedPad>();
    private readonly ImmutableArray<PrintedPerformance>.Builder _performance = ImmutableArray.CreateBuilder<PrintedPerformance>();
    private readonly OutputList _outputs = new();
    private readonly ImmutableArray<PrintedCombination>.Builder _combinations = ImmutableArray.CreateBuilder<PrintedCombination>();
    private readonly ImmutableArray<PrintedRemark>.Builder _remarks = ImmutableArray.CreateBuilder<PrintedRemark>();
    private readonly BatteryReading _battery = new();
    private readonly ImmutableArray<AmbiguousCombination>.Builder _ambiguous = ImmutableArray.CreateBuilder<AmbiguousCombination>();
    private readonly List<Statement> _unnamed = [];

    // What can only be read when all ports of the label are known.
    private readonly List<Action> _later = [];
    private PrintedTotal? _total;

    /// <summary>A port is named in words that were not read.</summary>
    public bool NamesUnreadPort { get; set; }

    /// <summary>The product's total, as far as it is read.</summary>
    public Power? Total => _total?.Power;

    /// <summary>What is read of several ports, as far as it is read.</summary>
    public IReadOnlyList<PrintedCombination> Combinations => _combinations;

    /// <summary>The label, with all that was not marked as read in <see cref="Label.Unread"/>.</summary>
    public Label Build(List<Piece> pieces)
    {
        if (_unnamed.Count > 0 && _outputs.IsEmpty && _combinations.Count == 0 && !NamesUnreadPort)
        {
            AddPorts(_unnamed[0], [PortNames.Unnamed]);
        }

        foreach (Action later in _later)
        {
            later();
        }

        MarkSeparators(pieces);
        List<Range> unread = UnreadRanges();
        Repair[] repairs = [.. folded.Repairs.OrderBy(static repair => repair.Start)];
        return new Label
        {
            Text = _text,
            Inputs = _inputs.ToImmutable(),
            InputMaxima = _inputMaxima.ToImmutable(),
            Outputs = _outputs.ToImmutable(),
            Combinations = _combinations.ToImmutable(),
            Ambiguous = _ambiguous.ToImmutable(),
            UnfitSplits = _unfit.ToImmutable(),
            Pads = _pads.ToImmutable(),
            Performance = _performance.ToImmutable(),
            Total = _total,
            Battery = _battery.Read,
            Remarks = _remarks.ToImmutable(),
            Unread = [.. unread.Take(Label.MostListed).Select(span => new UnreadSpan(_places[span.Start.Value], _text[span]))],
            UnlistedUnread = Math.Max(0, unread.Count - Label.MostListed),
            Repairs = [.. repairs.Take(Label.MostListed).Select(Printed)],
            UnlistedRepairs = Math.Max(0, repairs.Length - Label.MostListed),
            DoubtfulLines = DoubtfulLines(repairs),
        };
    }

    public void MarkRead(IEnumerable<Piece> pieces)
    {
        foreach (Piece piece in pieces)
        {
            _isRead.AsSpan(piece.First, piece.End - piece.First).Fill(true);
        }
    }

    /// <summary>Ratings of ports. A header without ratings says nothing and stays unread.</summary>
    public void Add(Statement statement)
    {
        if (statement.Items.Count == 0)
        {
            NamesUnreadPort |= !statement.Ports.IsEmpty && statement.Direction != Direction.Input;
            return;
        }

        if (statement.Ports.IsEmpty && statement.Direction != Direction.Input && !statement.HasMains)
        {
            _unnamed.Add(statement);
        }
        else
        {
            bool isSocket = statement is { HasMains: true, Ports.IsEmpty: true, Direction: Direction.Output };
            AddPorts(statement, isSocket ? [Socket] : statement.Ports);
        }
    }

    /// <summary>A combination; false when its rating does not fit its ports.</summary>
    public bool Add(CombinationPiece piece)
    {
        CombinationReading reading = new(piece, this);
        if (reading.Read() is { } combinations)
        {
            _combinations.AddRange(combinations);
            MarkRead([piece]);
            return true;
        }

        if (reading.Readings() is { Length: > 1 } readings)
        {
            _later.Add(() => Settle(piece, readings));
            return true;
        }

        if (reading.Unfit() is { } unfit)
        {
            _unfit.Add(unfit);
        }

        return false;
    }

    /// <summary>"C1+C2: 130W" below "Input"; false when more than a total is printed.</summary>
    public bool AddInput(CombinationPiece piece)
    {
        if (piece.Rating is not { Total: { } total, Shares.IsEmpty: true, Pool: null } || piece.Sets is not [var groups])
        {
            return false;
        }

        string ports = string.Join('+', groups.SelectMany(static group => group));
        _inputMaxima.Add(new PrintedInputMaximum(ports, PowerOf(total)!.Value, PlaceOf(piece), TextOf(piece)));
        MarkRead([piece]);
        return true;
    }

    /// <summary>"Dual port output: 45W+20W": of the ports of the label, when there are as many.</summary>
    public bool Add(SplitPiece piece, int count)
    {
        _later.Add(() =>
        {
            ImmutableArray<string> ports = Ports();
            if (!NamesUnreadPort && ports.Length == piece.Rating.Shares.Length && (count == 0 || count == ports.Length))
            {
                CombinationPiece combination = new([[.. ports.Select(static ImmutableArray<string> (port) => [port])]], piece.Rating);
                combination.Place(piece.First, piece.End);
                Add(combination);
            }
        });
        return true;
    }

    /// <summary>Ports on lines of their own that are used at once.</summary>
    public void Add(ImmutableArray<Statement> lines)
    {
        List<PrintedShare> shares = [];
        foreach (Statement line in lines)
        {
            Ratings ratings = Ratings.Of(line, this);
            shares.Add(new PrintedShare(line.Ports[0], ratings.Maximum?.Power, [.. ratings.Fixed]) { Ranges = [.. ratings.Ranges] });
            MarkRead(line.Headers);
            MarkRead(ratings.Read);
            MarkRead(line.Others);
        }

        Range all = lines[0].Headers[^1].First..(lines[^1].Items[^1].Rating.End);
        _combinations.Add(new PrintedCombination(
            [.. lines.Select(static line => line.Ports[0])], [.. shares], [], null, PlaceOf(lines[0].Headers[^1]), TextOf(all)));
    }

    /// <summary>"5V⎓3A together", "no more than 3.4 A together" behind the ratings of the same ports; false when the voltage is open.</summary>
    public bool AddPool(TotalPiece piece, ImmutableArray<string> ports, Statement statement)
    {
        Token? volts = piece.Mode?.Volts ?? (statement.Items is [{ Rating: ModePiece one }] ? one.Volts : null);
        Token? amps = piece.Mode?.Amps ?? piece.Amps;
        if (volts is null || amps is null)
        {
            return false;
        }

        PrintedPool pool = PoolOf(ports, volts, amps);
        _combinations.Add(new PrintedCombination(ports, [], [pool], null, PlaceOf(piece), TextOf(piece)));
        MarkRead([piece]);
        return true;
    }

    /// <summary>One voltage and current that several ports share.</summary>
    public static PrintedPool PoolOf(ImmutableArray<string> ports, Token volts, Token amps)
    {
        Voltage voltage = Voltage.FromMillivolts(volts.Value);
        Current current = Current.FromMilliamperes(amps.Value);
        return new PrintedPool(ports, voltage, current, voltage * current);
    }

    /// <summary>Frequencies of the mains input that was read last; false when there is none.</summary>
    public bool AddFrequencies(RowPiece row, Statement header)
    {
        bool isOfLast = _inputs is [.., { Alternating: true, FrequenciesHz.IsEmpty: true }];
        if (isOfLast)
        {
            _inputs[^1] = _inputs[^1] with { FrequenciesHz = [.. row.Values.Select(static value => value.Kind == TokenKind.Number ? value.Value / 1000 : value.Value)] };
            MarkRead([row, .. header.Headers]);
        }

        return isOfLast;
    }

    /// <summary>A wireless pad.</summary>
    public bool Add(PadPiece piece)
    {
        _pads.Add(new PrintedPad(piece.Name, [.. piece.Milliwatts.Select(Power.FromMilliwatts)], PlaceOf(piece), TextOf(piece)));
        MarkRead([piece]);
        return true;
    }

    /// <summary>An efficiency or a no-load power.</summary>
    public bool Add(PerformancePiece piece)
    {
        bool isPower = piece.Value.Is(Dimension.Power);
        _performance.Add(new PrintedPerformance(
            piece.Kind, isPower ? null : piece.Value.Value * 10, isPower ? PowerOf(piece.Value) : null, PlaceOf(piece), TextOf(piece)));
        MarkRead([piece]);
        return true;
    }

    /// <summary>The total; false when another one is printed already. Volts and amperes are those that the label's ports share.</summary>
    /// <param name="piece">The total.</param>
    /// <param name="count">Of how many ports it is said to be; 0 when it is not said.</param>
    public bool Add(TotalPiece piece, int count)
    {
        if (piece.Watts is null)
        {
            _later.Add(() => AddShared(piece, count));
            return true;
        }

        if (_total is not null && (_total.Power.Milliwatts != piece.Watts.Value || _total.Scope != piece.Scope))
        {
            return false;
        }

        _total ??= new PrintedTotal(PowerOf(piece.Watts)!.Value, piece.Scope, PlaceOf(piece), TextOf(piece));
        MarkRead([piece]);
        return true;
    }

    /// <summary>Battery figures; false when one of them is printed already with another value.</summary>
    public bool Add(BatteryPiece piece)
    {
        if (!_battery.Add(piece, PlaceOf(piece)))
        {
            return false;
        }

        MarkRead([piece]);
        return true;
    }

    /// <summary>Words that rate nothing.</summary>
    public bool AddRemark(Range range)
    {
        _remarks.Add(new PrintedRemark(PlaceOf(range), TextOf(range)));
        _isRead.AsSpan(range).Fill(true);
        return true;
    }

    /// <summary>Where a piece is printed. In a table that is the cell, not what stands over it.</summary>
    public Place PlaceOf(Piece piece) => piece is ModePiece { IsApart: true } mode ? _places[mode.Volts.Start] : PlaceOf(piece.First..piece.End);

    /// <summary>Where some tokens are printed.</summary>
    public Place PlaceOf(Range range)
    {
        int first = range.Start.Value;
        for (int i = first + 1; i < range.End.Value; i++)
        {
            first = tokens[i].IsMoved && !FollowsInText(i) ? i : first;
        }

        return _places[tokens[first].Start];
    }

    public string TextOf(Piece piece) => piece is ModePiece { IsApart: true } mode
        ? $"{_text[mode.Volts.Start..mode.Volts.End]} {_text[mode.Amps.Start..mode.Amps.End]}" : TextOf(piece.First..piece.End);

    /// <summary>The printed words of some tokens; those that stand apart are joined by a space.</summary>
    public string TextOf(Range range)
    {
        int start = range.Start.Value;
        string words = "";
        for (int i = start + 1; i <= range.End.Value; i++)
        {
            if (i == range.End.Value || tokens[i].IsMoved)
            {
                string part = _text[tokens[start].Start..Math.Max(tokens[start].Start, tokens[i - 1].End)];
                words = words.Length == 0 ? part : $"{words} {part}";
                start = i;
            }
        }

        return words;
    }

    public static Power? PowerOf(Token? watts) => watts is null ? null : Power.FromMilliwatts(watts.Value);

    private void AddPorts(Statement statement, ImmutableArray<string> ports)
    {
        Ratings ratings = Ratings.Of(statement, this);
        if (!ratings.Read.Any())
        {
            NamesUnreadPort |= !statement.Ports.IsEmpty && statement.Direction != Direction.Input;
            return;
        }

        if (statement.Direction.HasFlag(Direction.Input))
        {
            _inputs.AddRange(ratings.AsInputs(ports));
            _inputMaxima.AddRange(ratings.AsInputMaxima(ports));
        }

        if (statement.Direction.HasFlag(Direction.Output))
        {
            Piece first = statement.Headers.Count > 0 ? statement.Headers[^1] : statement.Items[0].Rating;
            _outputs.Add(ports, PlaceOf(first), ratings);
        }

        MarkRead(statement.Headers);
        MarkUnread(statement.Headers.OfType<HeaderPiece>().Select(static header => header.Power).OfType<Piece>());
        MarkRead(ratings.Read);
        MarkRead(statement.Others);
    }

    // Each output that is no socket, in the order of the text.
    private ImmutableArray<string> Ports() =>
        [.. _outputs.ToImmutable().Where(static output => output.Alternating.IsEmpty).Select(static output => output.Port)];

    // "Total output: 5V⎓3A": what the ports share, or the power of the only one.
    private void AddShared(TotalPiece piece, int count)
    {
        ImmutableArray<string> ports = Ports();
        if (piece.Mode is not { } mode || ports.IsEmpty || NamesUnreadPort || (count > 0 && count != ports.Length))
        {
            return;
        }

        if (ports.Length > 1)
        {
            _combinations.Add(new PrintedCombination(ports, [], [PoolOf(ports, mode.Volts, mode.Amps)], null, PlaceOf(piece), TextOf(piece)));
        }
        else if (_total is null)
        {
            _total = new PrintedTotal(Power.FromMilliwatts((int)mode.Milliwatts), piece.Scope, PlaceOf(piece), TextOf(piece));
        }
        else
        {
            return;
        }

        MarkRead([piece]);
    }

    // Arithmetic is a reader, too: a printed total, or what the same ports share elsewhere, may leave one reading.
    private void Settle(CombinationPiece piece, ImmutableArray<PrintedCombination> readings)
    {
        PrintedCombination[] left = [.. readings.Where(reading => CombinationReading.IsSettledBy(reading, _total?.Power, _combinations))];
        if (left is [var only])
        {
            _combinations.Add(only);
            MarkRead([piece]);
        }
        else
        {
            _ambiguous.Add(new AmbiguousCombination(readings, PlaceOf(piece), TextOf(piece)));
        }
    }

    // A maximum in a header is read by itself: it may contradict another one.
    private void MarkUnread(IEnumerable<Piece> pieces)
    {
        foreach (Piece piece in pieces)
        {
            _isRead.AsSpan(piece.First, piece.End - piece.First).Clear();
        }
    }

    // Commas and the like are part of what was read beside them.
    private void MarkSeparators(List<Piece> pieces)
    {
        int left = -1;
        for (int i = 0; i < pieces.Count; i++)
        {
            int run = i;
            while (run < pieces.Count && pieces[run] is SeparatorPiece)
            {
                run++;
            }

            bool isBetweenRead = (left >= 0 && _isRead[pieces[left].End - 1]) || (run < pieces.Count && _isRead[pieces[run].First]);
            if (isBetweenRead)
            {
                MarkRead(pieces.GetRange(i, run - i));
            }

            left = run;
            i = run;
        }
    }

    // A line of a wrapped rating follows in the text, a cell of a table does not.
    private bool FollowsInText(int token) => tokens[token].Start >= tokens[token - 1].End
        && _text.AsSpan(tokens[token - 1].End, tokens[token].Start - tokens[token - 1].End).IsWhiteSpace();

    private List<Range> UnreadRanges()
    {
        List<Range> spans = [];
        for (int i = 0; i < tokens.Count; i++)
        {
            int end = i;
            while (end < tokens.Count && !_isRead[end] && tokens[end].Kind != TokenKind.Break && (end == i || !tokens[end].IsMoved))
            {
                end++;
            }

            if (end > i)
            {
                spans.Add(tokens[i].Start..tokens[end - 1].End);
                i = end - 1;
            }
        }

        // What stands over the cells of a table is there for each of them; it is read when one of them is.
        HashSet<int> read = [];
        if (tokens.Exists(static token => token.IsMoved))
        {
            read = [.. tokens.Where((_, i) => _isRead[i]).Select(static token => token.Start)];
        }

        // Copies may be unread to a different extent.
        List<Range> apart = [];
        foreach (Range span in spans.Where(span => span.End.Value > span.Start.Value && !read.Contains(span.Start.Value))
            .OrderBy(static span => span.Start.Value))
        {
            if (apart is [.., var last] && span.Start.Value < last.End.Value)
            {
                apart[^1] = last.Start..Math.Max(last.End.Value, span.End.Value);
            }
            else
            {
                apart.Add(span);
            }
        }

        return apart;
    }

    // A guess in one line of a table, or of a rating over several lines, is a guess in all of them.
    private ImmutableHashSet<int> DoubtfulLines(Repair[] repairs)
    {
        HashSet<int> lines = [.. repairs.Where(static repair => repair.Kind == RepairKind.Characters).Select(repair => _places[repair.Start].Line)];
        if (lines.Count > 0)
        {
            (int First, int Last)[] together =
            [
                .. folded.Together.Select(part => (_places[part.Start.Value].Line, _places[part.End.Value - 1].Line)).Order(),
            ];
            foreach ((int first, int last) in together.Concat(Enumerable.Reverse(together)))
            {
                int[] part = [.. Enumerable.Range(first, last - first + 1)];
                if (part.Any(lines.Contains))
                {
                    lines.UnionWith(part);
                }
            }
        }

        return [.. lines];
    }

    private PrintedRepair Printed(Repair repair) => new(
        repair.Kind, _places[repair.Start], _text[repair.Start..repair.End].ReplaceLineEndings("\u21B5"), repair.After);
}
