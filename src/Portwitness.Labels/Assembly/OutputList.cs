using System.Collections.Immutable;

namespace Portwitness.Labels;

/// <summary>One output for each port, in the order of the text; what is printed of a port in several places is put together.</summary>
internal sealed class OutputList
{
    private readonly List<Output> _outputs = [];
    private readonly Dictionary<string, Output> _byKey = [];

    public bool IsEmpty => _outputs.Count == 0;

    public ImmutableArray<PrintedOutput> ToImmutable() => [.. _outputs.Select(static output => output.ToPrinted())];

    /// <summary>Adds ratings to ports; a maximum that contradicts an earlier one is taken out of <see cref="Ratings.Read"/>.</summary>
    public void Add(ImmutableArray<string> ports, Place at, Ratings ratings)
    {
        Output[] outputs = [.. ports.DistinctBy(PortNames.Key).Select(port => Find(port, at))];
        if (ratings.Maximum is not null
            && outputs.Any(output => output.Maximum is not null && output.Maximum.Power != ratings.Maximum.Power))
        {
            ratings.RejectMaximum();
        }

        foreach (Output output in outputs)
        {
            output.Fixed.AddRange(ratings.Fixed);
            output.Ranges.AddRange(ratings.Ranges);
            output.Alternating.AddRange(ratings.Alternating);
            output.ProtocolMaxima.AddRange(ratings.ProtocolMaxima);
            output.Maximum ??= ratings.Maximum;
            output.Incomplete |= ratings.Incomplete;
        }
    }

    private Output Find(string port, Place at)
    {
        string key = PortNames.Key(port);
        if (!_byKey.TryGetValue(key, out Output? output))
        {
            output = _byKey[key] = new Output(port, at);
            _outputs.Add(output);
        }

        return output;
    }

    private sealed class Output(string port, Place at)
    {
        public List<PrintedFixed> Fixed { get; } = [];

        public List<PrintedRange> Ranges { get; } = [];

        public List<PrintedAlternating> Alternating { get; } = [];

        public List<PrintedMaximum> ProtocolMaxima { get; } = [];

        public PrintedMaximum? Maximum { get; set; }

        public bool Incomplete { get; set; }

        public PrintedOutput ToPrinted() => new()
        {
            Port = port,
            At = at,
            Fixed = [.. Fixed],
            Ranges = [.. Ranges],
            Alternating = [.. Alternating],
            ProtocolMaxima = [.. ProtocolMaxima],
            IsCaptiveCable = PortGrammar.IsCable(port),
            Maximum = Maximum,
            Incomplete = Incomplete,
        };
    }
}
