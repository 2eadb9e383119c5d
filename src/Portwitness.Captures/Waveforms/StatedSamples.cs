namespace Portwitness.Captures.Waveforms;

/// <summary>What is said of a file that is nothing but samples.</summary>
/// <param name="Kind">How a sample is stored.</param>
/// <param name="Rate">Samples a second.</param>
/// <param name="Packed">Whether the file is compressed with gzip.</param>
/// <param name="Bit">The bit of each sample that is the CC line, the lowest being 0; null when the sample is its voltage.</param>
public sealed record StatedSamples(SampleKind Kind, long Rate, bool Packed, int? Bit)
{
    /// <summary>The archive that they are in.</summary>
    public SampleArchive Archive { get; init; }
}

/// <summary>What holds files of samples.</summary>
public enum SampleArchive
{
    /// <summary>Nothing: the file is the samples.</summary>
    None,

    /// <summary>A zip archive.</summary>
    Zip,

    /// <summary>A tar archive, which may be compressed, or a folder.</summary>
    Tar,
}
