using System.Collections.Immutable;

namespace Portwitness.Labels;

/// <summary>
/// What headings say of the lines below them: the direction, whose ratings, and under which condition. A heading that is not known says
/// something, nobody knows what: below it nothing is anybody's, up to a heading that says a direction.
/// </summary>
internal sealed class Context
{
    // What a heading on a line of its own, or around the ports of a line, says of the ports below it.
    private Direction _section;

    // What a heading on this line says of the ports behind it; null where that is open.
    private Direction? _ofLine = Direction.Unsaid;

    // The last direction that was said is that of an input, and it is not said how far it reaches.
    private bool _isAfterInput;

    /// <summary>The heading above is not known.</summary>
    public bool IsUnknown { get; private set; }

    /// <summary>The condition above; null when there is none.</summary>
    public ConditionPiece? Condition { get; private set; }

    /// <summary>The line of <see cref="Condition"/>.</summary>
    public int ConditionLine { get; private set; }

    /// <summary>The ports that begin the line, for the directions behind them: "USB-C: input 5V⎓3A; output 9V⎓2A".</summary>
    public ImmutableArray<string> LinePorts { get; private set; } = [];

    /// <summary>Several ports at once.</summary>
    public bool IsTogether => Condition is { IsAlone: false };

    /// <summary>The direction of what is unnamed: below a heading "Input" it is an input.</summary>
    public bool IsInput => _section == Direction.Input || _ofLine == Direction.Input;

    public void BeginLine() => (_ofLine, LinePorts) = (Direction.Unsaid, []);

    /// <summary>The direction of a header; null where it is open.</summary>
    public Direction? DirectionOf(HeaderPiece header, Statement? above)
    {
        if (header.Direction != Direction.Unsaid)
        {
            return header.Direction;
        }

        Direction? said = above?.Direction ?? _ofLine;
        said = said == Direction.Unsaid ? _section : said;
        return said == Direction.Unsaid ? (_isAfterInput && !header.Ports.All(IsSource) ? null : Direction.Output) : said;
    }

    /// <summary>A header was read: what it says of what is behind and below it.</summary>
    public void Read(HeaderPiece header, Statement? above, int line, bool isLast)
    {
        if (header.Direction != Direction.Unsaid)
        {
            IsUnknown = false;

            // "USB-C1 Input: …" says it of that port; "Input: USB-C1: …" may say it of those below, too.
            _isAfterInput = header.Direction == Direction.Input && (header.IsDirectionFirst || header.Ports.IsEmpty);
            bool isOpen = header.Ports.IsEmpty && LinePorts.IsEmpty;
            _section = isOpen && isLast ? header.Direction : Direction.Unsaid;
            _ofLine = isOpen || header.IsDirectionFirst ? header.Direction : header.Direction == Direction.Output ? Direction.Output : null;
            _ofLine = LinePorts.IsEmpty ? _ofLine : Direction.Unsaid;
            if (header.Ports.IsEmpty)
            {
                Condition = null;
            }
        }
        else
        {
            // "Input/Output: USB-C" says nothing of a port on the line below.
            _section = above is null ? _section : above.Direction == Direction.Both && above.Line == line ? Direction.Unsaid : above.Direction;
        }

        if (!header.Ports.IsEmpty && header.IsMarked)
        {
            LinePorts = header.Ports;
        }
    }

    /// <summary>Words that were not read say a direction: nobody knows of what.</summary>
    public void MissDirection() => (_ofLine, _isAfterInput) = (null, true);

    /// <summary>A mains or car supply was read: what is below it is no input of that kind.</summary>
    public void ReadSupply() => (_section, _isAfterInput, _ofLine) = (Direction.Unsaid, false, Direction.Unsaid);

    public void Read(ConditionPiece condition, int line)
    {
        (Condition, ConditionLine, IsUnknown) = (condition, line, false);
        if (condition.IsOutput)
        {
            (_section, _isAfterInput) = (Direction.Output, false);
        }
    }

    public void EndCondition() => Condition = null;

    public void ReadUnknown() => (IsUnknown, Condition) = (true, null);

    // A USB-A receptacle gives (Universal Serial Bus Type-C specification, 1.4: only Type-C and the B family take).
    private static bool IsSource(string port) => port.StartsWith('A') || port.StartsWith("USB", StringComparison.OrdinalIgnoreCase);
}
