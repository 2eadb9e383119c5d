namespace Portwitness.Analysis;

/// <summary>
/// Analyses one capture while its bytes arrive. Memory does not grow with the capture, but with the number of
/// different capability lists, contracts and findings, each of which is bounded.
/// </summary>
public sealed class CaptureAnalyzer(CaptureOptions options)
{
    /// <summary>Takes the next piece of the capture.</summary>
    public void Write(ReadOnlySpan<byte> piece) => throw new NotImplementedException(options.File);

    /// <summary>Says that the capture has ended, and gives what was learned.</summary>
    public CaptureAnalysis Complete() => throw new NotImplementedException();
}
