using Portwitness.PowerDelivery.Limits;

namespace Portwitness.Analysis.Product;

/// <summary>
/// Checks one product. The caller reads <see cref="Files"/>, opens each in turn, feeds its bytes, and closes it;
/// nothing here touches a disk.
/// </summary>
public sealed class ProductCheck
{
    private ProductCheck() => Files = [];

    /// <summary>Captures that are needed, in order, relative to the product file and never outside its folder.</summary>
    public IReadOnlyList<string> Files { get; }

    /// <summary>From the text of a product file; what is wrong with it is reported by <see cref="Complete"/>.</summary>
    public static ProductCheck ForProduct(string file, string text, Editions? edition) => throw new NotImplementedException();

    /// <summary>From one capture, whose file name becomes the only one of <see cref="Files"/>, and a label.</summary>
    public static ProductCheck ForCapture(string file, string? label, string? port, Editions? edition) =>
        throw new NotImplementedException();

    /// <summary>Begins a file of <see cref="Files"/>; feed the analyzer, then call <see cref="Close"/>.</summary>
    public CaptureAnalyzer Open(string file) => throw new NotImplementedException();

    /// <summary>Says that the file that was opened last has ended.</summary>
    public void Close() => throw new NotImplementedException();

    /// <summary>Says that a file of <see cref="Files"/> cannot be had, and why.</summary>
    public void Missing(string file, string reason) => throw new NotImplementedException();

    /// <summary>Says that all files were given, and gives what was learned.</summary>
    public ProductAnalysis Complete() => throw new NotImplementedException();
}
