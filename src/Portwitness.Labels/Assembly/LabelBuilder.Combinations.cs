using System.Collections.Immutable;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Labels;

/// <content>What several ports give together.</content>
internal sealed partial class LabelBuilder
{
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

    /// <summary>
    /// A power in total behind the ratings of ports. Where they are what each gives, it is of these ports; else it is the product's when
    /// they are all that it has, and otherwise nobody knows whose.
    /// </summary>
    public void AddTotalOf(Statement statement, TotalPiece piece)
    {
        ImmutableArray<string> ports = statement.Ports;
        if (ports.Length > 1 && statement.IsForEach)
        {
            _combinations.Add(new PrintedCombination(ports, [], [], PowerOf(piece.Watts), PlaceOf(piece), TextOf(piece)));
            MarkRead([piece]);
            return;
        }

        _later.Add(() =>
        {
            if (!NamesUnreadPort && Ports().Select(PortNames.Key).ToHashSet().SetEquals(ports.Select(PortNames.Key)))
            {
                Add(piece, 0);
            }
        });
    }

    /// <summary>A power of so many ports at once, 0 for all: the product's total where it has no more.</summary>
    public void AddTotalOf(int count, PowerPiece power)
    {
        TotalPiece piece = new(power.Watts, null, null, TotalGrammar.ProductScope);
        piece.Place(power.First, power.End);
        _later.Add(() =>
        {
            if (!NamesUnreadPort && Ports() is { Length: > 1 } ports && (count == 0 || count == ports.Length))
            {
                Add(piece, count);
            }
        });
    }

    /// <summary>One voltage and current that several ports share.</summary>
    public static PrintedPool PoolOf(ImmutableArray<string> ports, Token volts, Token amps)
    {
        Voltage voltage = Voltage.FromMillivolts(volts.Value);
        Current current = Current.FromMilliamperes(amps.Value);
        return new PrintedPool(ports, voltage, current, voltage * current);
    }

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
            if (new CombinationReading(piece, this).Unfit() is { } unfit)
            {
                _unfit.Add(unfit);
            }
        }
    }
}
