using System.Collections.Immutable;

namespace Portwitness.Product;

/// <summary>One element of "offers:" of a product file: what a port offers, read off and typed.</summary>
/// <param name="Port">The port.</param>
/// <param name="InUse">Ports in use, in attach order; the port alone when it is not stated.</param>
/// <param name="List">The offers, one an element, as they were typed.</param>
public sealed record TypedOffers(string Port, ImmutableArray<string> InUse, ImmutableArray<string> List)
{
    /// <summary>The photo of a display that they are read off, relative to the product file; null when they were typed.</summary>
    public string? Photo { get; init; }

    /// <summary>Whether somebody has compared what was read off the photo.</summary>
    public bool IsChecked { get; init; }

    /// <summary>Line and column of each offer in the product file.</summary>
    public ImmutableArray<(int Line, int Column)> Places { get; init; } = [];

    /// <summary>Whether these are all offers; a person may skip a line, so that nothing but the word for it says so.</summary>
    public bool Complete { get; init; }

    /// <summary>When it was read; empty when it is not stated.</summary>
    public string ReadOn { get; init; } = "";

    /// <summary>What it was read from; empty when it is not stated.</summary>
    public string From { get; init; } = "";

    /// <summary>
    /// Whether a device had agreed on something before: a managed port may list less until then (R3.2v1.1, 6.4.11). Null when it is not stated.
    /// </summary>
    public bool? UnderContract { get; init; }

    /// <summary>Where the product file has it.</summary>
    public int Line { get; init; }

    /// <summary>As reports name it: "offers of C1 with A, read off a display on 2026-03-02".</summary>
    public string Name
    {
        get
        {
            string others = string.Join(", ", InUse.Where(port => port != Port));
            string where = From.Length == 0 ? "" : $" off {From}";
            string when = ReadOn.Length == 0 ? "" : $" on {ReadOn}";
            return $"offers of {Port}{(others.Length == 0 ? "" : $" with {others}")}{(where.Length + when.Length == 0 ? "" : $", read{where}{when}")}";
        }
    }
}
