namespace Portwitness.Captures;

/// <summary>A record that a format could not place at its time.</summary>
/// <param name="Kind">Its kind: "messages" or "signals".</param>
/// <param name="FromUs">When it was, in microseconds from the start of the capture.</param>
/// <param name="ToUs">When it is in what was written.</param>
public readonly record struct MovedRecord(string Kind, long FromUs, long ToUs);

/// <summary>
/// Writes one capture in one format to a stream, which it leaves open: header first, then records in the order of their
/// time. Disposing writes what is still held.
/// </summary>
public interface ICaptureWriter : ICaptureSink, IDisposable
{
    /// <summary>Records that the format has no place for, by kind ("messages", "measurements" ...); they were left out.</summary>
    IReadOnlyDictionary<string, long> LeftOut { get; }

    /// <summary>The first records that could not be placed at their times; a hundred at most.</summary>
    IReadOnlyList<MovedRecord> Moved => [];

    /// <summary>How many there were.</summary>
    long MovedCount => 0;

    /// <summary>Writes what is held to the stream.</summary>
    void Flush();
}
