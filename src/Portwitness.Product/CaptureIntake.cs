using Portwitness.Analysis;
using Portwitness.Captures.Formats;
using Portwitness.Captures.Offers;

namespace Portwitness.Product;

/// <summary>The captures of one file while its bytes come: one for each port that is wanted of it, each on a core of its own.</summary>
public sealed class CaptureIntake
{
    private readonly CaptureAnalyzer[] _analyzers;

    private readonly bool? _photoChecked;
    private readonly LabelIntake _photo = new();

    /// <summary>The photo of a display, of which the recognised words come.</summary>
    internal CaptureIntake(CaptureAnalyzer analyzer, bool photoChecked)
        : this(analyzer) => _photoChecked = photoChecked;

    internal CaptureIntake(params CaptureAnalyzer[] analyzers) => _analyzers = analyzers;

    /// <summary>Capture and measurements of a file whose measurements are joined in; such a file is of one port.</summary>
    public CaptureInput Input => _analyzers[0].Input;

    /// <summary>Takes the next piece; returns when all ports have read it, so that nothing waits in memory.</summary>
    public void Write(ReadOnlyMemory<byte> piece)
    {
        if (_photoChecked is not null)
        {
            _photo.Write(piece.Span);
        }
        else if (_analyzers.Length == 1)
        {
            _analyzers[0].Write(piece.Span);
        }
        else
        {
            Parallel.ForEach(_analyzers, analyzer => analyzer.Write(piece.Span));
        }
    }

    internal IEnumerable<CaptureAnalysis> Complete()
    {
        if (_photoChecked is { } isChecked)
        {
            // What is no photo is read as what it is.
            string text = _photo.Complete(out _) ?? "";
            _analyzers[0].Write(DisplayPhoto.ToCapture(text, isChecked) ?? TypedOfferText.ToCapture(text));
        }

        return _analyzers.Select(static analyzer => analyzer.Complete());
    }
}
