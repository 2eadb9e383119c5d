using Portwitness.Captures.Input;

namespace Portwitness.Captures.Formats;

/// <summary>
/// Reads a capture of any known format, which it finds from the content. Bytes are pushed in as they come, in pieces
/// of any size; memory does not grow with the input, and how it is cut into pieces makes no difference.
/// </summary>
public sealed class CaptureReader
{
    private readonly FaultLog _faults;
    private readonly DetectingInput _input;
    private bool _completed;

    /// <summary>A reader that hands what it finds to a sink.</summary>
    /// <param name="sink">Receives what is found.</param>
    /// <param name="options">What is known besides the bytes; null for nothing.</param>
    public CaptureReader(ICaptureSink sink, CaptureReadOptions? options = null)
    {
        ArgumentNullException.ThrowIfNull(sink);
        _faults = new FaultLog(sink);
        _input = new DetectingInput(sink, _faults, options ?? new CaptureReadOptions());
    }

    /// <summary>The format found, by its name in captures/FORMAT.md; null as long as, or when, none was.</summary>
    public string? Format => _input.Format;

    /// <summary>Takes the next piece of the input.</summary>
    /// <exception cref="InvalidOperationException">The input was said to have ended.</exception>
    public void Write(ReadOnlySpan<byte> piece)
    {
        if (_completed)
        {
            throw new InvalidOperationException("The input has ended; read the next one with a new reader.");
        }

        _input.Write(piece);
    }

    /// <summary>Says that the input has ended. An input in which no format was found has its fault reported here.</summary>
    /// <exception cref="InvalidOperationException">That was said before.</exception>
    public void Complete()
    {
        if (_completed)
        {
            throw new InvalidOperationException("The input has already ended.");
        }

        _completed = true;
        _input.Complete();
        _faults.Complete();
    }
}
