using System.Collections.Immutable;

namespace Portwitness.Labels;

/// <summary>
/// The rows of an information sheet, (EU) 2019/1782 Annex II 2(b): output voltages in one row, currents in another, powers in a third.
/// They belong together by their order.
/// </summary>
internal sealed class InformationSheet(LabelBuilder builder)
{
    // Powers are rounded to a tenth of a watt.
    private const int MaxDifference = 500;

    private RowPiece? _volts;
    private Statement? _header;
    private ImmutableArray<ModePiece> _modes = [];

    /// <summary>A row below its header; false when nothing is known of it.</summary>
    public bool Add(RowPiece row, Statement header)
    {
        if (row.Dimension == Dimension.Frequency)
        {
            return header.Direction == Direction.Input && builder.AddFrequencies(row, header.Headers);
        }

        if (header.Direction == Direction.Input)
        {
            return row is { Dimension: Dimension.Current, Values: [var amps] } && builder.AddCurrent(row, amps, header);
        }

        if (row.Dimension == Dimension.Voltage)
        {
            (_volts, _header, _modes) = (row, header, []);
            return true;
        }

        if (row.Dimension != Dimension.Current || _volts is null || row.Values.Length != _volts.Values.Length)
        {
            return false;
        }

        _modes = [.. _volts.Values.Zip(row.Values, static (volts, amps) => new ModePiece(volts, amps, null, IsMaximum: false) { IsApart = true })];
        Statement statement = new(Direction.Output, [], _header!.Line) { IsDirectionSaid = true };
        statement.Headers.AddRange(_header.Headers);
        statement.Others.AddRange([_volts, row, .. header.Headers]);
        foreach (ModePiece mode in _modes)
        {
            mode.Place(_volts.First, _volts.End);
            statement.Items.Add(new Statement.Item(mode, null, []));
        }

        builder.Add(statement);
        _volts = null;
        return true;
    }

    /// <summary>The powers of the rows above, which say nothing new; false when they are not.</summary>
    public bool Add(TotalPiece total)
    {
        bool isProduct = _modes is [var mode] && total.Watts is { } watts && Math.Abs(watts.Value - mode.Milliwatts) <= MaxDifference;
        if (isProduct)
        {
            builder.MarkRead([total]);
            _modes = [];
        }

        return isProduct;
    }

    /// <summary>The same for several.</summary>
    public bool Add(RowPiece powers)
    {
        bool areProducts = powers.Values.Length == _modes.Length
            && _modes.Zip(powers.Values).All(static pair => Math.Abs(pair.First.Milliwatts - pair.Second.Value) <= MaxDifference);
        if (areProducts)
        {
            builder.MarkRead([powers]);
            _modes = [];
        }

        return areProducts;
    }
}
