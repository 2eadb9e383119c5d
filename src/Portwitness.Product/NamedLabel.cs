using System.Collections.Immutable;
using Portwitness.Labels;

namespace Portwitness.Product;

/// <summary>One of "labels:" of a product file: what is printed on the front, on the back, on the box or in the leaflet.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Text">Its text; null while a file has it.</param>
/// <param name="File">The file, relative to the product file and inside its folder; null when the text is given.</param>
public sealed record NamedLabel(string Name, string? Text, string? File)
{
    /// <summary>What a person says is printed where it is unread or doubtful.</summary>
    public ImmutableArray<ProductCorrection> Corrections { get; init; } = [];

    /// <summary>Whether a person has compared the text of a photo with it.</summary>
    public bool IsChecked { get; init; }
}

/// <summary>A further label as it was read, with what it says and whether that is so.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Label">The label.</param>
/// <param name="Statements">Each printed statement with its verdict.</param>
public sealed record JudgedLabel(string Name, Label Label, ImmutableArray<Statement> Statements);
