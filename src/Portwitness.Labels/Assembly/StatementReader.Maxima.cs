namespace Portwitness.Labels;

/// <content>A maximum on a line of its own, below the modes of a port: the port's, or the product's?</content>
internal sealed partial class StatementReader
{
    // Where the last port is named that gives something; looked for once.
    private int? _lastPort;

    // The last port that may speak PD; looked for once.
    private int? _lastSource;

    // Whether a port above had its maximum on a line of its own, and the most that a port above gives, in mW.
    private bool _hadOwnMaximum;
    private long _mostAbove;

    // Below one port of several, where another one follows, it is no product's; below the last one it is the port's where the others have theirs, or
    // where a port above gives more. Only what the port's volts times amperes reach is taken.
    private bool IsOwnMaximum(PowerPiece power, int index, int end)
    {
        bool isBelow = power.IsMaximum && AtStart && index + 1 == end && _open is { Direction: Direction.Output, Ports.Length: 1, Items.Count: > 0 } open && open.Line != _line
            && !open.HasPower && Ratings.Reaches(open, power);
        return isBelow && (IsBetweenPorts(index) || _hadOwnMaximum || _mostAbove == 0 || power.Watts.Value < _mostAbove);
    }

    // "Max output: 45W" below the modes of USB-C, with USB-A below it.
    private bool TakeMaximumOfPort(TotalPiece total, int index, int end)
    {
        if (total is not { Watts: { } watts, IsShared: false } || total.Scope == TotalGrammar.ProductScope)
        {
            return false;
        }

        int token = _tokens.IndexOf(watts, total.First);
        PowerPiece power = new(watts, IsMaximum: true, token..(token + 1));
        power.Place(total.First, total.End);
        if (!IsOwnMaximum(power, index, end) || !(IsBetweenPorts(index) || _hadOwnMaximum))
        {
            return false;
        }

        _open!.Items.Add(new Statement.Item(power, null, []));
        _hadOwnMaximum = true;
        return true;
    }

    // Ports that give something are named above and below.
    private bool IsBetweenPorts(int index) => _isPortAbove && index < (_lastPort ??= _pieces.FindLastIndex(IsPortThatGives));

    private static bool IsPortThatGives(Piece piece) => piece is HeaderPiece { Ports.IsEmpty: false, IsBehind: false, Direction: not Direction.Input };
}
