using System.Collections.Immutable;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Labels;

/// <summary>Collects what was read, and knows which tokens were.</summary>
internal sealed partial class LabelBuilder(FoldedText folded, List<Token> tokens)
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

    /// <summary>How many ports the label says it has; 0 when it does not say it.</summary>
    public int ListedPorts { get; set; }

    /// <summary>The product's total, as far as it is read.</summary>
    public Power? Total => _total?.Power;

    /// <summary>What is read of several ports, as far as it is read.</summary>
    public IReadOnlyList<PrintedCombination> Combinations => _combinations;

    /// <summary>The label, with all that was not marked as read in <see cref="Label.Unread"/>.</summary>
    public Label Build(List<Piece> pieces)
    {
        // Of ports that are listed and not rated nobody knows what is said.
        NamesUnreadPort |= ListedPorts > 0 && ListedPorts != Math.Max(Ports().Length, 1);
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
        HashSet<int> rating = unread.Count == 0 ? [] : RatingLines();
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
            Unread = [.. unread.Take(Label.MaxListed).Select(span => Unread(span, rating))],
            UnlistedUnread = Math.Max(0, unread.Count - Label.MaxListed),
            Repairs = [.. repairs.Take(Label.MaxListed).Select(Printed)],
            UnlistedRepairs = Math.Max(0, repairs.Length - Label.MaxListed),
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

    /// <summary>Marks the signs between values; a value is read when it is given to somebody.</summary>
    public void MarkSigns(Piece piece)
    {
        for (int i = piece.First; i < piece.End; i++)
        {
            _isRead[i] |= tokens[i].Kind != TokenKind.Quantity;
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

    /// <summary>"Dual port output: 45W+20W": of the ports of the label, when there are as many.</summary>
    /// <param name="piece">The values.</param>
    /// <param name="count">Of how many ports; 0 when it is not said.</param>
    /// <param name="kind">The letter of the ports that are meant; empty for all.</param>
    public bool Add(SplitPiece piece, int count, string kind)
    {
        _later.Add(() =>
        {
            ImmutableArray<string> ports = piece.Kinds.IsEmpty
                ? [.. Ports().Where(port => kind.Length == 0 || PortNames.IsOfKind(port, kind[0]))] : PortsOf(piece.Kinds);
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

    /// <summary>Frequencies of the mains input that was read last; false when there is none.</summary>
    public bool AddFrequencies(RowPiece row, IReadOnlyList<Piece> headers)
    {
        bool isOfLast = _inputs is [.., { Alternating: true, FrequenciesHz.IsEmpty: true }];
        if (isOfLast)
        {
            _inputs[^1] = _inputs[^1] with
            {
                FrequenciesHz = [.. row.Values.Select(static value => value.Kind == TokenKind.Number ? value.Value / 1000 : value.Value)],
                Text = $"{_inputs[^1].Text} {TextOf(row)}",
            };
            MarkRead([row, .. headers]);
        }

        return isOfLast;
    }

    /// <summary>The current of the mains input that was read last; false when there is none without one.</summary>
    public bool AddCurrent(RowPiece row, Token amps, Statement header)
    {
        bool isOfLast = _inputs is [.., { Current: null, Port: null }];
        if (isOfLast)
        {
            _inputs[^1] = _inputs[^1] with { Current = Current.FromMilliamperes(amps.Value), Text = $"{_inputs[^1].Text} {TextOf(row)}" };
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

    // Every port of each letter; empty where the label has another number of them: which are meant is then open.
    private ImmutableArray<string> PortsOf(ImmutableArray<(char Letter, int Count)> kinds)
    {
        ImmutableArray<string>[] all = [.. kinds.Select(kind => Ports().Where(port => PortNames.IsOfKind(port, kind.Letter)).ToImmutableArray())];
        return all.Zip(kinds).All(static pair => pair.First.Length == pair.Second.Count) ? [.. all.SelectMany(static ports => ports)] : [];
    }

    // Each output that is no socket, in the order of the text.
    private ImmutableArray<string> Ports() =>
        [.. _outputs.ToImmutable().Where(static output => output.Alternating.IsEmpty).Select(static output => output.Port)];

    private UnreadSpan Unread(Range span, HashSet<int> rating)
    {
        Place at = _places[span.Start.Value];
        return new UnreadSpan(at, _text[span], rating.Contains(at.Line));
    }

    private PrintedRepair Printed(Repair repair) => new(
        repair.Kind, _places[repair.Start], _text[repair.Start..repair.End].ReplaceLineEndings("\u21B5"), repair.After);
}
