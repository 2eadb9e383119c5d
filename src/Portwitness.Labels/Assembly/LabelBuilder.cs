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
    private readonly List<Statement> _unnamed = [];
    private PrintedTotal? _total;

    /// <summary>The label, with all that was not marked as read in <see cref="Label.Unread"/>.</summary>
    public Label Build(List<Piece> pieces)
    {
        if (_unnamed.Count > 0 && _outputs.IsEmpty && _combinations.Count == 0)
        {
            AddPorts(_unnamed[0], [PortNames.Unnamed]);
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
        if (reading.Read() is not { } combinations)
        {
            if (reading.Unfit() is { } unfit)
            {
                _unfit.Add(unfit);
            }

            return false;
        }

        _combinations.AddRange(combinations);
        MarkRead([piece]);
        return true;
    }

    /// <summary>A wireless pad.</summary>
    public bool Add(PadPiece piece)
    {
        _pads.Add(new PrintedPad(piece.Name, [.. piece.Watts.Select(static watts => PowerOf(watts)!.Value)], PlaceOf(piece), TextOf(piece)));
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

    /// <summary>The total; false when another one is printed already.</summary>
    public bool Add(TotalPiece piece)
    {
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

    /// <summary>A remark.</summary>
    public bool Add(RemarkPiece piece)
    {
        _remarks.Add(new PrintedRemark(PlaceOf(piece), TextOf(piece)));
        MarkRead([piece]);
        return true;
    }

    /// <summary>Where a piece is printed. In a table that is the cell, not what stands over it.</summary>
    public Place PlaceOf(Piece piece) => PlaceOf(piece.First..piece.End);

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

    public string TextOf(Piece piece) => TextOf(piece.First..piece.End);

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
