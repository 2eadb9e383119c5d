namespace Portwitness.History;

/// <summary>Which reports are old enough to be deleted.</summary>
public sealed record PruneQuery
{
    /// <summary>Those whose input came for the last time before this.</summary>
    public required DateTimeOffset Before { get; init; }

    /// <summary>Whether reports that fail stay.</summary>
    public bool KeepFailing { get; init; }

    /// <summary>Only those with this in the product's name, in upper or lower case; empty for all.</summary>
    public string Product { get; init; } = "";
}

/// <summary>What was deleted. The rules of a report count with it.</summary>
/// <param name="Reports">Reports.</param>
/// <param name="Submissions">Submissions: those of the reports, those that were set aside as long ago, and those whose reports were gone already.</param>
public sealed record PrunedRows(long Reports, long Submissions)
{
    /// <summary>Both together.</summary>
    public static PrunedRows operator +(PrunedRows one, PrunedRows other) =>
        new(one.Reports + other.Reports, one.Submissions + other.Submissions);
}
