namespace Portwitness.Captures.Waveforms;

/// <summary>Tells low from high with hysteresis.</summary>
/// <param name="levels">Below the first it is low, above the second high, between them what it was.</param>
internal struct VoltageLevel((int Low, int High) levels)
{
    /// <summary>
    /// Half of the swing of BMC, 1.05 to 1.2 V (R3.2v1.1, 5.8.2.1, vSwing), and a tenth of a volt either way: in microvolts. "Common
    /// practice, no source" for the tenth.
    /// </summary>
    public static readonly (int Low, int High) Bmc = (460_000, 660_000);

    private LineLevel _level;

    /// <summary>The level of the next value.</summary>
    public LineLevel LevelAt(long value)
    {
        _level = value < levels.Low ? LineLevel.Low : value > levels.High ? LineLevel.High : _level;
        return _level;
    }
}
