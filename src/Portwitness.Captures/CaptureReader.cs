namespace Portwitness.Captures;

/// <summary>
/// Reads a capture of any known format, which it finds from the content. Bytes are pushed in as they come, in pieces
/// of any size; memory does not grow with the input.
/// </summary>
public sealed class CaptureReader(ICaptureSink sink)
{
    private readonly ICaptureSink _sink = sink;

    /// <summary>The format found, null as long as, or when, none was.</summary>
    public string? Format { get; private set; }

    /// <summary>Takes the next piece of the input.</summary>
    public void Write(ReadOnlySpan<byte> piece) => _sink.OnFault(null!);

    /// <summary>Says that the input has ended. An input in which no format was found has its fault reported here.</summary>
    public void Complete() => throw new NotImplementedException();
}
