namespace Portwitness.Labels;

/// <summary>Lines of ports below "when two ports are used:" are one combination; taken one by one they would say what a port gives alone.</summary>
internal sealed class SharedLines(LabelBuilder builder)
{
    private readonly List<Statement> _lines = [];
    private bool _isMissing;

    /// <summary>A port with what it gives.</summary>
    public void Add(Statement line) => _lines.Add(line);

    /// <summary>A port of the combination was not read.</summary>
    public void Miss() => _isMissing = true;

    /// <summary>The condition ends. What does not make a combination of so many ports stays unread.</summary>
    public void End(int count)
    {
        bool isWhole = !_isMissing && _lines.Count > 1 && (count == 0 || count == _lines.Count)
            && _lines.TrueForAll(static line => line is { Ports.Length: 1, Incomplete: false } && line.Items.TrueForAll(static item =>
                item.Rating is ModePiece or RangePiece || item is { Rating: PowerPiece, Protocol: null }))
            && _lines.DistinctBy(static line => PortNames.Key(line.Ports[0])).Count() == _lines.Count;
        if (isWhole)
        {
            builder.Add([.. _lines]);
        }

        _lines.Clear();
        _isMissing = false;
    }
}
