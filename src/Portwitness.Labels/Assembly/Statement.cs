using System.Collections.Immutable;

namespace Portwitness.Labels;

/// <summary>A list of ratings that is being read: whose they are, and what was read so far.</summary>
internal sealed class Statement(Direction direction, ImmutableArray<string> ports, int line)
{
    /// <summary>Input, output or both.</summary>
    public Direction Direction { get; set; } = direction;

    /// <summary>The direction is printed, not taken for granted.</summary>
    public bool IsDirectionSaid { get; init; }

    /// <summary>Its ports are joined by "and".</summary>
    public bool IsJoined { get; init; }

    /// <summary>Words say that its ratings are those of each of its ports.</summary>
    public bool IsForEach => Others.Exists(static piece => piece is EachPiece) || Headers.Exists(static piece => piece is HeaderPiece { IsForEach: true });

    /// <summary>One rating for ports joined by "and", which does not say whether it is for each.</summary>
    public bool IsOpenToEach => IsJoined && Items.Count == 1 && !Others.Exists(static piece => piece is EachPiece);

    /// <summary>Empty when none is named.</summary>
    public ImmutableArray<string> Ports { get; } = ports;

    /// <summary>The line of its header.</summary>
    public int Line { get; } = line;

    /// <summary>Its headers; empty for ratings without one.</summary>
    public List<Piece> Headers { get; } = [];

    /// <summary>Ratings in the order of the text.</summary>
    public List<Item> Items { get; } = [];

    /// <summary>What else belongs to it and has no value: "each", "(Input)".</summary>
    public List<Piece> Others { get; } = [];

    /// <summary>It is a mains inlet; a DC rating below it is something else.</summary>
    public bool HasMains { get; set; }

    /// <summary>Something near it was not read.</summary>
    public bool Incomplete { get; set; }

    /// <summary>"Output:" alone: a header that waits for its ports or ratings.</summary>
    public bool IsDirectionOnly => Ports.IsEmpty && Items.Count == 0 && Headers.Count > 0;

    /// <summary>It has a power that may be the ports'.</summary>
    public bool HasPower => Items.Exists(static item => item.Rating is PowerPiece);

    /// <summary>A rating, the protocol named for it, and the pieces that name it.</summary>
    internal sealed record Item(Piece Rating, string? Protocol, ImmutableArray<Piece> ProtocolPieces);
}
