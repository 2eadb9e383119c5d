namespace Portwitness.Product.Teardown;

/// <summary>How a part of a teardown was identified.</summary>
public enum Identification
{
    /// <summary>Nobody says.</summary>
    NotStated,

    /// <summary>Its marking was read.</summary>
    Read,

    /// <summary>A data sheet was found for its marking.</summary>
    Datasheet,

    /// <summary>It was concluded from where it is, or how it looks.</summary>
    Inferred,
}

/// <summary>One line of "teardown:" in the user's words; what is not stated is empty.</summary>
public sealed record LedgerEntry
{
    /// <summary>Its name on the board.</summary>
    public string Ref { get; init; } = "";

    /// <summary>What it does there.</summary>
    public string Function { get; init; } = "";

    /// <summary>What is printed on it.</summary>
    public string Marking { get; init; } = "";

    /// <summary>Who made it.</summary>
    public string Maker { get; init; } = "";

    /// <summary>Its package.</summary>
    public string Package { get; init; } = "";

    /// <summary>How many of it there are.</summary>
    public int Count { get; init; } = 1;

    /// <summary>The picture that shows it.</summary>
    public string Photo { get; init; } = "";

    /// <summary>The board that it is on.</summary>
    public string Board { get; init; } = "";

    /// <summary>The side of that board.</summary>
    public string Side { get; init; } = "";

    /// <summary>Its ratings, as they are written.</summary>
    public string Ratings { get; init; } = "";

    /// <summary>Where all of it comes from.</summary>
    public string Source { get; init; } = "";

    /// <summary>How it was identified.</summary>
    public Identification Identified { get; init; }

    /// <summary>No part: somebody looked for the function and found nothing more than what is listed.</summary>
    public bool IsSearch { get; init; }
}
