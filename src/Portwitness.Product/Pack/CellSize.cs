namespace Portwitness.Product.Pack;

/// <summary>The outer size of a cell or of a whole product, in hundredths of a millimetre.</summary>
/// <param name="First">Diameter of a cylinder, else thickness.</param>
/// <param name="Second">Height of a cylinder, else width.</param>
/// <param name="Third">Length; null for a cylinder.</param>
public readonly record struct CellSize(int First, int Second, int? Third)
{
    // 355 / 113, right to 3 in ten million.
    private const long PiOver = 355;
    private const long PiUnder = 113;

    /// <summary>In cubic millimetres, rounded down.</summary>
    public long CubicMillimetres => Third is { } third
        ? (long)((Int128)First * Second * third / 1_000_000)
        : (long)((Int128)First * First * Second * PiOver / (4 * PiUnder * 1_000_000));

    /// <summary>What it holds by its volume, in Wh/l, rounded; null for a size of less than a cubic millimetre.</summary>
    public long? WattHoursPerLitre(long microwattHours) => CubicMillimetres is > 0 and var volume ? (microwattHours + (volume / 2)) / volume : null;

    /// <summary>"18 x 65 mm" or "6 x 60 x 90 mm".</summary>
    public string Text => (Third is null ? "⌀ " : "") + string.Join(
        " x ", new[] { First, Second, Third }.OfType<int>().Select(static one => (one / 100m).ToString("0.##", System.Globalization.CultureInfo.InvariantCulture))) + " mm";
}
