using System.Collections.Immutable;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Labels;

/// <summary>The ratings of one statement, with each power given to what it belongs to.</summary>
internal sealed class Ratings
{
    private const int MaxDifference = 500;

    private readonly Statement _statement;
    private readonly LabelBuilder _builder;

    // The power printed beside a rating, by the rating's index.
    private readonly Dictionary<int, PowerPiece> _beside = [];
    private readonly List<Piece> _read = [];

    // All with the same value.
    private readonly List<PowerPiece> _maxima = [];
    private readonly List<PrintedMaximum> _protocolMaxima = [];

    private Ratings(Statement statement, LabelBuilder builder) =>
        (_statement, _builder, Incomplete) = (statement, builder, statement.Incomplete);

    public List<PrintedFixed> Fixed { get; } = [];

    public List<PrintedRange> Ranges { get; } = [];

    public List<PrintedAlternating> Alternating { get; } = [];

    public IReadOnlyList<PrintedMaximum> ProtocolMaxima => _protocolMaxima;

    public PrintedMaximum? Maximum { get; private set; }

    public bool Incomplete { get; private set; }

    /// <summary>The pieces that are in the result.</summary>
    public IEnumerable<Piece> Read => _read.Concat(_maxima);

    public static Ratings Of(Statement statement, LabelBuilder builder)
    {
        Ratings ratings = new(statement, builder);
        ratings.AssignPowers();
        for (int i = 0; i < statement.Items.Count; i++)
        {
            ratings.Add(i);
        }

        return ratings;
    }

    /// <summary>The maximum can not be the ports': it stays unread.</summary>
    public void RejectMaximum()
    {
        _maxima.Clear();
        (Maximum, Incomplete) = (null, true);
    }

    /// <summary>The ratings as those of inputs; no ports are the inlet.</summary>
    public IEnumerable<PrintedInput> AsInputs(ImmutableArray<string> ports)
    {
        foreach (string? port in ports.IsEmpty ? [null] : ports.AsEnumerable<string?>())
        {
            for (int i = 0; i < _statement.Items.Count; i++)
            {
                Piece piece = _statement.Items[i].Rating;
                (ImmutableArray<(int Minimum, int Maximum)> voltages, Token? amps, Token? watts) = piece switch
                {
                    ModePiece mode => ([(mode.Volts.Value, mode.Volts.Value)], mode.Amps, WattsOf(i, mode.Watts)),
                    RangePiece range => ([(range.Minimum, range.Maximum)], range.Amps, WattsOf(i, range.Watts)),
                    SupplyPiece { IsEither: true } either =>
                        ([(either.Minimum, either.Minimum), (either.Maximum, either.Maximum)], either.Amps, null),
                    SupplyPiece supply => ([(supply.Minimum, supply.Maximum)], supply.Amps, null),
                    MainsPiece mains => (mains.Voltages, mains.Amps, mains.Watts),
                    _ => ([], null, null),
                };
                foreach ((int minimum, int maximum) in voltages)
                {
                    yield return new PrintedInput(
                        port, piece is MainsPiece, Voltage.FromMillivolts(minimum), Voltage.FromMillivolts(maximum),
                        amps is null ? null : Current.FromMilliamperes(amps.Value), LabelBuilder.PowerOf(watts),
                        piece is MainsPiece { Frequencies: var hertz } ? hertz : [], _builder.PlaceOf(piece), _builder.TextOf(piece))
                    {
                        Protocol = _statement.Items[i].Protocol,
                    };
                }
            }
        }
    }

    /// <summary>The maximum as that of inputs; no ports are the inlet.</summary>
    public IEnumerable<PrintedInputMaximum> AsInputMaxima(ImmutableArray<string> ports) => Maximum is null
        ? []
        : (ports.IsEmpty ? [null] : ports.AsEnumerable<string?>())
            .Select(port => new PrintedInputMaximum(port, Maximum.Power, Maximum.At, Maximum.Text));

    // "Max" is the ports'. A plain power is too when it ends a list of several ratings (PPS ranges may follow), or when
    // nothing else is printed; else it belongs to the rating before it.
    private void AssignPowers()
    {
        List<Statement.Item> items = _statement.Items;
        int ratings = items.Count(static item => item.Rating is not PowerPiece);
        int plain = items.Count(static item => item.Rating is PowerPiece { IsMaximum: false } && item.Protocol is null);
        int lastMode = items.FindLastIndex(static item => item.Rating is ModePiece);
        int before = 0;
        for (int i = 0; i < items.Count; i++)
        {
            if (items[i].Rating is not PowerPiece power)
            {
                before++;
                continue;
            }

            if (items[i].Protocol is not null && !_statement.Direction.HasFlag(Direction.Output))
            {
                // What a protocol may take in has no place in the result: it stays unread.
                Incomplete = true;
                continue;
            }

            if (items[i].Protocol is { } protocol)
            {
                _protocolMaxima.Add(ToMaximum(power) with { Protocol = protocol });
                _read.Add(power);
                _read.AddRange(items[i].ProtocolPieces);
                continue;
            }

            if (ProtocolOnly(power) is { } other)
            {
                _protocolMaxima.Add(ToMaximum(power) with { Protocol = other });
                _read.Add(power);
                continue;
            }

            // A power in front of a list is the port's too: "C1 100W: 5V⎓3A 20V⎓5A".
            bool endsList = plain == 1 && before > 1 && i > lastMode && _maxima.Count == 0;
            bool beginsList = plain == 1 && i == 0 && ratings > 1;
            bool isOfPorts = power.IsMaximum || ratings == 0 || endsList || beginsList || IsOfOnly(i, ratings);
            if (isOfPorts && (_maxima.Count == 0 || _maxima[0].Watts.Value == power.Watts.Value))
            {
                _maxima.Add(power);
            }
            else if (!power.IsMaximum && !endsList && i > 0 && items[i - 1].Rating is ModePiece { Watts: null } or RangePiece { Watts: null })
            {
                _beside[i - 1] = power;
                _read.Add(power);
            }
            else
            {
                Incomplete = true;
            }
        }

        if (_maxima is [PowerPiece maximum, ..])
        {
            Maximum = ToMaximum(maximum);
        }
    }

    /// <summary>Whether a power is what the largest of the ratings gives; powers are rounded to a watt, or to half of one.</summary>
    public static bool Reaches(Statement statement, PowerPiece power) =>
        Math.Abs(MostOf(statement.Items) - power.Watts.Value) <= MaxDifference;

    // "9V⎓2.22A (20W)": rounded, and in parentheses, it is the port's.
    private bool IsOfOnly(int index, int ratings) => ratings == 1 && index == 1
        && _statement.Items is [{ Rating: ModePiece mode }, { Rating: PowerPiece power }]
        && power.Inner.Start.Value > power.First 
        && mode.Milliwatts != power.Watts.Value && Math.Abs(mode.Milliwatts - power.Watts.Value) <= MaxDifference;

    // "5V⎓3A 9V⎓2A FLUX 11V⎓6A (66W Max)": only that protocol gives it.
    private string? ProtocolOnly(PowerPiece power)
    {
        Statement.Item[] others = [.. _statement.Items.Where(static item => item.Protocol is { } name && item.Rating is ModePiece
            && Vocabulary.Find(name) == Term.None)];
        bool isOnly = power.IsMaximum && others.Length > 0 && MostOf(_statement.Items.Except(others)) + MaxDifference < power.Watts.Value
            && Math.Abs(MostOf(others) - power.Watts.Value) <= MaxDifference;
        return isOnly ? others.MaxBy(static item => ((ModePiece)item.Rating).Milliwatts)!.Protocol : null;
    }

    /// <summary>The most that modes and ranges give, in mW; 0 for none.</summary>
    public static long MostOf(IEnumerable<Statement.Item> items) => items.Max(static item => item.Rating switch
    {
        ModePiece mode => mode.Milliwatts,
        RangePiece range => range.Milliwatts,
        _ => (long?)null,
    }) ?? 0;

    private PrintedMaximum ToMaximum(PowerPiece power) => new(
        LabelBuilder.PowerOf(power.Watts)!.Value, _builder.PlaceOf(power.Inner), _builder.TextOf(power.Inner));

    private void Add(int index)
    {
        (Piece piece, string? protocol, ImmutableArray<Piece> protocolPieces) = _statement.Items[index];
        if (piece is PowerPiece)
        {
            return;
        }

        if (piece is ModePiece mode)
        {
            Fixed.Add(Of(mode, _builder, protocol, WattsOf(index, mode.Watts)));
        }
        else if (piece is RangePiece range)
        {
            Ranges.AddRange(Of(range, _builder, protocol, WattsOf(index, range.Watts)));
        }
        else if (piece is MainsPiece mains && _statement.Direction.HasFlag(Direction.Output))
        {
            Alternating.AddRange(mains.Voltages.Select(volts => new PrintedAlternating(
                Voltage.FromMillivolts(volts.Minimum), Voltage.FromMillivolts(volts.Maximum),
                mains.Amps is null ? null : Current.FromMilliamperes(mains.Amps.Value), LabelBuilder.PowerOf(mains.Watts),
                mains.Frequencies, _builder.PlaceOf(mains), _builder.TextOf(mains))));
        }

        _read.Add(piece);
        _read.AddRange(protocolPieces);
    }

    /// <summary>A mode as it is printed.</summary>
    public static PrintedFixed Of(ModePiece mode, LabelBuilder builder, string? protocol, Token? watts) => new(
        Voltage.FromMillivolts(mode.Volts.Value), Current.FromMilliamperes(mode.Amps.Value),
        Current.FromMilliamperes(mode.Amps.Step), LabelBuilder.PowerOf(watts), protocol,
        builder.PlaceOf(mode), builder.TextOf(mode));

    /// <summary>A range as it is printed; each of its parts where they differ.</summary>
    public static IEnumerable<PrintedRange> Of(RangePiece range, LabelBuilder builder, string? protocol, Token? watts) =>
        range.Parts.Select(part => new PrintedRange(
            protocol, Voltage.FromMillivolts(part.Minimum), Voltage.FromMillivolts(part.Maximum),
            Current.FromMilliamperes(part.Amps.Value), Current.FromMilliamperes(part.Amps.Step),
            LabelBuilder.PowerOf(watts), builder.PlaceOf(range), builder.TextOf(range)));

    private Token? WattsOf(int index, Token? printed) =>
        printed ?? (_beside.TryGetValue(index, out PowerPiece? power) ? power.Watts : null);
}
