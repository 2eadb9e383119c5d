using System.Collections.Immutable;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Negotiation;

/// <summary>
/// How a device chooses among what it could ask for. The standard leaves the choice to the device; these are stated
/// policies, and none of them is said to be any device's.
/// </summary>
/// <param name="Name">As "--policy" takes it.</param>
/// <param name="Text">In one sentence.</param>
public sealed record SinkPolicy(string Name, string Text)
{
    /// <summary>The most power up to the wish; then the lowest voltage.</summary>
    public static SinkPolicy MostPower { get; } = new(
        "most-power", "the most power up to the wish; of equals the lowest voltage, then the plainest kind of supply");

    /// <summary>The most power up to the wish; then the highest voltage.</summary>
    public static SinkPolicy HighVoltage { get; } = new(
        "high-voltage", "the most power up to the wish; of equals the highest voltage, which needs the least current");

    /// <summary>The lowest voltage that is enough.</summary>
    public static SinkPolicy LowVoltage { get; } = new(
        "low-voltage", "the lowest voltage that gives the minimum, or the most power where none does");

    /// <summary>A fixed supply where one gives the minimum.</summary>
    public static SinkPolicy FixedFirst { get; } = new(
        "fixed-first", "a fixed supply where one gives the minimum, and of these the most power; PPS and AVS only otherwise");

    /// <summary>PPS or AVS where one gives the minimum.</summary>
    public static SinkPolicy AdjustableFirst { get; } = new(
        "adjustable-first", "PPS or AVS where one gives the minimum, and of these the most power; fixed supplies only otherwise");

    /// <summary>All of them, the default first.</summary>
    public static ImmutableArray<SinkPolicy> All { get; } = [MostPower, HighVoltage, LowVoltage, FixedFirst, AdjustableFirst];

    /// <summary>One of them; null when there is none of that name.</summary>
    public static SinkPolicy? Find(string name) => All.FirstOrDefault(policy => policy.Name == name);

    /// <summary>The request that is made; null when there is none to choose from.</summary>
    public SinkRequest? Choose(IEnumerable<SinkRequest> possible, SinkDescription sink) =>
        possible.MaxBy(request => Rank(request, sink));

    // Larger is better, the first figure before the others.
    private (bool, int, int, int, int) Rank(SinkRequest request, SinkDescription sink)
    {
        bool isEnough = request.Power >= (sink.Minimum ?? Power.Zero);
        bool isAdjustable = request.Kind.IsAugmented();
        int power = request.Reaches(sink.Wish) ? sink.Wish.Milliwatts : request.Power.Milliwatts;
        int volts = request.Voltage.Millivolts;
        int plain = -Plainness(request.Kind);
        int early = -request.Offered.Position;
        return Name switch
        {
            "high-voltage" => (true, power, volts, plain, early),
            "low-voltage" when isEnough => (true, -volts, power, plain, early),
            "low-voltage" => (false, power, -volts, plain, early),
            "fixed-first" => (isEnough && !isAdjustable, power, -volts, plain, early),
            "adjustable-first" => (isEnough && isAdjustable, power, -volts, plain, early),
            _ => (true, power, -volts, plain, early),
        };
    }

    private static int Plainness(PowerObjectKind kind) => kind switch
    {
        PowerObjectKind.Fixed => 0,
        PowerObjectKind.Variable => 1,
        PowerObjectKind.Battery => 2,
        PowerObjectKind.SprAvs or PowerObjectKind.EprAvs => 3,
        _ => 4,
    };
}
