namespace Portwitness.Captures;

/// <summary>
/// Writes one capture in one format to a stream, which it leaves open: header first, then records in the order of their
/// time. Disposing writes what is still held.
/// </summary>
public interface ICaptureWriter : ICaptureSink, IDisposable
{
    /// <summary>Records that the format has no place for, by kind ("messages", "measurements" ...); they were left out.</summary>
    IReadOnlyDictionary<string, long> LeftOut { get; }

    /// <summary>Writes what is held to the stream.</summary>
    void Flush();
}
