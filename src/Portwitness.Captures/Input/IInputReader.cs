namespace Portwitness.Captures.Input;

/// <summary>Reads one format from bytes in pieces of any size.</summary>
internal interface IInputReader
{
    /// <summary>Takes the next piece.</summary>
    void Write(ReadOnlySpan<byte> piece);

    /// <summary>Learns that there is no more.</summary>
    void Complete();
}

/// <summary>A format of lines.</summary>
internal sealed class LineInput(LineSplitter lines, ILineReader reader) : IInputReader
{
    public void Write(ReadOnlySpan<byte> piece) => lines.Write(piece, reader);

    public void Complete()
    {
        lines.Complete(reader);
        reader.Complete();
    }
}
