namespace Portwitness.Reports.Proofing;

/// <summary>How the record knows an amount.</summary>
internal enum RecordKind
{
    /// <summary>A label prints it.</summary>
    Printed,

    /// <summary>A port offered it, or a device asked for it.</summary>
    Offered,

    /// <summary>A capture or a log measured it.</summary>
    Measured,

    /// <summary>It stands in the words of a finding, a statement's evidence or a table, which may be any of these.</summary>
    Told,
}

/// <summary>An amount that a report has.</summary>
/// <param name="Dimension">What it measures.</param>
/// <param name="Least">The value, or the least that it may be, in the dimension's unit.</param>
/// <param name="Most">The most that it may be.</param>
/// <param name="Port">The port; empty for the product.</param>
/// <param name="Topic">A row of Words.txt that says what it is of; empty for a rating.</param>
/// <param name="Kind">How it is known.</param>
/// <param name="Where">Where the record has it, in words.</param>
internal sealed record RecordedAmount(
    ArticleDimension Dimension, decimal Least, decimal Most, string Port, string Topic, RecordKind Kind, string Where)
{
    /// <summary>It holds while other ports are in use, too.</summary>
    public bool IsTogether { get; init; }

    /// <summary>The most that the port, or the product, gives: what an article calls its power.</summary>
    public bool IsMaximum { get; init; }
}
