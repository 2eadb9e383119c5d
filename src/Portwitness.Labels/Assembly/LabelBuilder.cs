using System.Collections.Immutable;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Labels;

/// <summary>Collects what was read, and knows which tokens were.</summary>
internal sealed class LabelBuilder(string text, List<Token> tokens)
{
    private readonly Places _places = new(text);
    private readonly bool[] _isRead = new bool[tokens.Count];
    private readonly ImmutableArray<PrintedInput>.Builder _inputs = ImmutableArray.CreateBuilder<PrintedInput>();
    private readonly OutputList _outputs = new();
    private readonly ImmutableArray<PrintedCombination>.Builder _combinations = ImmutableArray.CreateBuilder<PrintedCombination>();
    private readonly ImmutableArray<PrintedRemark>.Builder _remarks = ImmutableArray.CreateBuilder<PrintedRemark>();
    private readonly List<Statement> _unnamed = [];
    private PrintedTotal? _total;
    private PrintedBattery? _battery;

    /// <summary>The label, with all that was not marked as read in <see cref="Label.Unread"/>.</summary>
    public Label Build(List<Piece> pieces)
    {
        if (_unnamed.Count > 0 && _outputs.IsEmpty && _combinations.Count == 0)
        {
            AddPorts(_unnamed[0], [PortNames.Unnamed]);
        }

        MarkSeparators(pieces);
        return new Label
        {
            Text = text,
            Inputs = _inputs.ToImmutable(),
            Outputs = _outputs.ToImmutable(),
            Combinations = _combinations.ToImmutable(),
            Total = _total,
            Battery = _battery,
            Remarks = _remarks.ToImmutable(),
            Unread = Unread(),
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

        if (statement.Ports.IsEmpty && statement.Direction != Direction.Input)
        {
            _unnamed.Add(statement);
        }
        else
        {
            AddPorts(statement, statement.Ports);
        }
    }

    /// <summary>A combination; false when its rating does not fit its ports.</summary>
    public bool Add(CombinationPiece piece)
    {
        PrintedCombination? combination = CombinationReading.Read(piece, this);
        if (combination is null)
        {
            return false;
        }

        _combinations.Add(combination);
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

        _total ??= new PrintedTotal(PowerOf(piece.Watts)!.Value, piece.Scope, PlaceOf(piece.First), TextOf(piece));
        MarkRead([piece]);
        return true;
    }

    /// <summary>Battery figures; false when one of them is printed already with another value.</summary>
    public bool Add(BatteryPiece piece)
    {
        PrintedBattery battery = _battery ?? new PrintedBattery { At = PlaceOf(piece.First) };
        Voltage? volts = piece.Volts is null ? null : Voltage.FromMillivolts(piece.Volts.Value);
        PrintedBattery read = piece.IsRated
            ? battery with
            {
                RatedCapacityMilliampereHours = piece.Capacity ?? battery.RatedCapacityMilliampereHours,
                RatedVoltage = volts ?? battery.RatedVoltage,
                RatedCurrent = piece.Amps is null ? battery.RatedCurrent : Current.FromMilliamperes(piece.Amps.Value),
            }
            : battery with
            {
                CapacityMilliampereHours = piece.Capacity ?? battery.CapacityMilliampereHours,
                NominalVoltage = volts ?? battery.NominalVoltage,
                Energy = piece.WattHours is null ? battery.Energy : Energy.FromMilliwattHours(piece.WattHours.Value),
            };
        if (Contradicts(battery.CapacityMilliampereHours, read.CapacityMilliampereHours)
            || Contradicts(battery.RatedCapacityMilliampereHours, read.RatedCapacityMilliampereHours)
            || Contradicts(battery.NominalVoltage, read.NominalVoltage) || Contradicts(battery.RatedVoltage, read.RatedVoltage)
            || Contradicts(battery.RatedCurrent, read.RatedCurrent) || Contradicts(battery.Energy, read.Energy))
        {
            return false;
        }

        _battery = read;
        MarkRead([piece]);
        return true;
    }

    /// <summary>A remark.</summary>
    public bool Add(RemarkPiece piece)
    {
        _remarks.Add(new PrintedRemark(PlaceOf(piece.First), TextOf(piece)));
        MarkRead([piece]);
        return true;
    }

    public Place PlaceOf(int token) => _places[tokens[token].Start];

    public string TextOf(Piece piece) => TextOf(piece.First..piece.End);

    /// <summary>The printed words of some tokens.</summary>
    public string TextOf(Range range) => text[tokens[range.Start.Value].Start..tokens[range.End.Value - 1].End];

    public static Power? PowerOf(Token? watts) => watts is null ? null : Power.FromMilliwatts(watts.Value);

    private static bool Contradicts<T>(T? before, T? after)
        where T : struct, IEquatable<T> => before is { } value && after is { } other && !value.Equals(other);

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
        }

        if (statement.Direction.HasFlag(Direction.Output))
        {
            Piece first = statement.Headers.Count > 0 ? statement.Headers[^1] : statement.Items[0].Rating;
            _outputs.Add(ports, PlaceOf(first.First), ratings);
        }

        MarkRead(ratings.Read);
        MarkRead(statement.Headers);
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

    private ImmutableArray<UnreadSpan> Unread()
    {
        ImmutableArray<UnreadSpan>.Builder unread = ImmutableArray.CreateBuilder<UnreadSpan>();
        for (int i = 0; i < tokens.Count; i++)
        {
            int end = i;
            while (end < tokens.Count && !_isRead[end] && tokens[end].Kind != TokenKind.Break)
            {
                end++;
            }

            if (end > i)
            {
                unread.Add(new UnreadSpan(PlaceOf(i), TextOf(i..end)));
                i = end;
            }
        }

        return unread.ToImmutable();
    }
}
