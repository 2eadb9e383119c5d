using Portwitness.PowerDelivery.Units;
using Portwitness.Product.Decisions;
using Portwitness.Product.Printed;

namespace Portwitness.Product.Energy;

/// <summary>Measured points of a mains supply at one output voltage, as "adapter:" of a product file has them.</summary>
/// <param name="At">The output voltage.</param>
/// <param name="Rated">The rated current at that voltage: 100 % load.</param>
/// <param name="Points">Points under load.</param>
/// <param name="NoLoadMilliwatts">What the supply takes without a load, in mW; null when it was not measured.</param>
/// <param name="AccuracyPpm">What the power meters may be off, in millionths of each reading; null when it is not stated.</param>
/// <param name="Line">Line of the product file.</param>
public sealed record AdapterRun(
    Voltage At, Current Rated, IReadOnlyList<AdapterPoint> Points, long? NoLoadMilliwatts, int? AccuracyPpm, int Line)
{
    /// <summary>Where nothing is stated: one per cent (common practice, no source).</summary>
    public const int AssumedPpm = 10_000;

    private const int Millionths = 1_000_000;

    private static readonly int[] Loads = [25, 50, 75, 100];

    /// <summary>Output power at full load.</summary>
    public Power Power => At * Rated;

    /// <summary>The loads of the average that no point was measured at, in per cent; two per cent of the rated current off are near enough.</summary>
    public IEnumerable<int> MissingLoads => Loads.Where(load => PointAt(load) is null);

    /// <summary>The mean of the efficiencies at 25, 50, 75 and 100 %, in millionths; null while one of them is missing.</summary>
    public long? AveragePpm => MissingLoads.Any() ? null : Loads.Sum(load => PointAt(load)!.EfficiencyPpm) / Loads.Length;

    /// <summary>
    /// Its expanded uncertainty, k = 2, in millionths: the meters of input and output are off on their own, each by the same share at all four loads.
    /// </summary>
    public long? UncertaintyPpm => AveragePpm is { } average
        ? Uncertainty.Expanded([(average / (double)Millionths, AccuracyPpm ?? AssumedPpm), (average / (double)Millionths, AccuracyPpm ?? AssumedPpm)])
        : null;

    /// <summary>How far a power without a load may be off, in mW; rounded up.</summary>
    public long OfNoLoad(long milliwatts) => ((milliwatts * (AccuracyPpm ?? AssumedPpm)) + Millionths - 1) / Millionths;

    /// <summary>What limits such a supply: the voltage under test decides the formula; several outputs at once are left open.</summary>
    public SupplyLimits Limits() => new(
        Power,
        At.Millivolts < 6000 && Rated.Milliamperes >= 550 ? [SupplyKind.LowVoltage, SupplyKind.MultipleVoltage] : [SupplyKind.Basic, SupplyKind.MultipleVoltage]);

    // (EU) 2019/1782 Annex I load conditions: 2 % of the rated output current (from memory).
    private AdapterPoint? PointAt(int load) =>
        Points.FirstOrDefault(point => Math.Abs((long)point.LoadPpm - (load * 10_000)) <= 20_000);
}

/// <summary>One measured point.</summary>
/// <param name="LoadPpm">Output current over rated current, in millionths.</param>
/// <param name="InputMilliwatts">Power taken from the mains.</param>
/// <param name="OutputMilliwatts">Power given at the output.</param>
public sealed record AdapterPoint(int LoadPpm, long InputMilliwatts, long OutputMilliwatts)
{
    /// <summary>Output over input, in millionths, rounded to the nearest.</summary>
    public long EfficiencyPpm => ((OutputMilliwatts * 1_000_000) + (InputMilliwatts / 2)) / InputMilliwatts;
}
