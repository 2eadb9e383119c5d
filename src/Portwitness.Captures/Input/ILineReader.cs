namespace Portwitness.Captures.Input;

/// <summary>Reads one format, line by line.</summary>
internal interface ILineReader
{
    /// <summary>Takes a line that is not blank, without its end.</summary>
    void Read(long line, ReadOnlySpan<byte> text);

    /// <summary>Learns that a line was too long and has been skipped; its fault was reported.</summary>
    void Skipped(long line);

    /// <summary>Learns that there are no more lines.</summary>
    void Complete();
}
