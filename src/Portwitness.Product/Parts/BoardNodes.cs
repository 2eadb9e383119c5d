using Portwitness.Analysis.Phrases;
using Portwitness.Labels;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.PowerDelivery.Units;
using Portwitness.Product.Offers;
using Portwitness.Product.Pack;

namespace Portwitness.Product.Parts;

/// <summary>
/// The voltages of a board's nodes: VBUS of each port from captures, else from the label; "pack" from the cells in series; "bridge", the larger of
/// pack and any VBUS. "mains" is not judged here.
/// </summary>
/// <param name="offers">What ports offered.</param>
/// <param name="label">The label; null when none is given.</param>
/// <param name="build">How the pack is built; null when nothing is stated of it.</param>
internal sealed class BoardNodes(IReadOnlyList<PortOffer> offers, Label? label, PackBuild? build)
{
    private const string PackNode = "pack";
    private const string BridgeNode = "bridge";
    private const string MainsNode = "mains";

    // Of a converter between cells and ports: usual, no standard.
    private const int UsualPpm = 920_000;

    private readonly ILookup<string, PortOffer> _byPort = offers.ToLookup(static offer => PortNames.Key(offer.Port));

    private NodeLevel? _pack;

    /// <summary>What a node sees, and whether it is a node of the board that can be judged at all.</summary>
    public (NodeLevel Level, bool IsKnown) Find(string node) => node.ToLowerInvariant() switch
    {
        PackNode => (Pack(), build is not null),
        BridgeNode => (Bridge(), true),
        MainsNode => (NodeLevel.Unknown, false),
        _ => (Port(node), _byPort.Contains(PortNames.Key(node)) || IsPort(node)),
    };

    // A label that names its ports names all of them; an output without a name may be any.
    private bool IsPort(string node) => label is null || label.Outputs.All(static output => output.Port == PortNames.Unnamed)
        || label.FindOutput(node) is not null || label.Inputs.Any(input => PortNames.Same(input.Port, node));

    private NodeLevel Pack() => _pack ??= OfPack();

    private NodeLevel OfPack()
    {
        if (build is not { FullMillivolts: { } full })
        {
            return NodeLevel.Unknown;
        }

        (Voltage Voltage, Current Current)[] outputs = [.. Ports().SelectMany(port => Port(port).Outputs)];
        NodeLevel pack = OfVolts(NodeBasis.Cells, build.Series * full, $"{build.Series} in series, {Voltage.FromMillivolts(full)} each when full") with { Outputs = [.. outputs] };
        long most = Math.Max(label?.Total?.Power.Milliwatts ?? 0, outputs.Select(static one => (long)one.Voltage.Millivolts * one.Current.Milliamperes / 1_000).DefaultIfEmpty(0).Max());
        return build.EmptyMillivolts is { } empty && most > 0
            ? pack with { CurrentIsReckoned = true, Largest = Current.FromMilliamperes((int)Math.Min(int.MaxValue, most * 1_000_000_000 / UsualPpm / build.Series / empty)) }
            : pack;
    }

    private NodeLevel Bridge()
    {
        NodeLevel[] levels = [.. Ports().Select(Port).Append(Pack())];
        NodeLevel known = Highest(levels.Where(static level => level.Basis != NodeBasis.Printed));
        NodeLevel printed = Highest(levels.Select(static level => level.Basis == NodeBasis.Printed ? level : level.Beyond).OfType<NodeLevel>());
        return With(known, printed) with { Largest = null, CurrentIsReckoned = false, Outputs = [] };
    }

    private IEnumerable<string> Ports() => offers.Select(static offer => offer.Port)
        .Concat(label?.Outputs.Select(static output => output.Port) ?? []).Concat(label?.Inputs.Select(static input => input.Port).OfType<string>() ?? [])
        .DistinctBy(PortNames.Key);

    private static NodeLevel Highest(IEnumerable<NodeLevel> levels) =>
        levels.Where(static level => level.Highest is not null).MaxBy(static level => level.Highest) ?? NodeLevel.Unknown;

    private static NodeLevel With(NodeLevel known, NodeLevel printed) =>
        known.Highest is null ? printed : printed.Highest > known.Highest ? known with { Beyond = printed } : known;

    // A port that is an input brings its voltage to what is on its VBUS, too.
    private NodeLevel Port(string node)
    {
        NodeLevel offered = Offered(node);
        return With(offered, Printed(node, offered.Highest is null));
    }

    private NodeLevel Offered(string node)
    {
        (Voltage? highest, Current? current, Phrase of) = (null, null, Phrase.Empty);
        List<(Voltage, Current)> outputs = [];
        foreach (PortOffer offer in _byPort[PortNames.Key(node)].SelectMany(static offer => offer.Earlier.Append(offer)))
        {
            foreach (OfferedObject offered in offer.List.Objects.Where(offered => offered.KindIsKnown && !offered.IsZero && offered.Kind != PowerObjectKind.Reserved))
            {
                if (offered.HighestVoltage() is { } volts && (highest is not { } so || volts > so))
                {
                    (highest, of) = (volts, $"object {offered.Position}, {offered} ({offer.Place})");
                }

                if (offered.MaximumCurrent() is { } amperes && (current is not { } most || amperes > most))
                {
                    current = amperes;
                }

                if (offered.HighestVoltage() is { } at && offered.MaximumCurrent() is { } drawn)
                {
                    outputs.Add((at, drawn));
                }
            }
        }

        return highest is { } top
            ? new NodeLevel(NodeBasis.Offered, top, MomentOf(top), current, of) { Outputs = [.. outputs] }
            : NodeLevel.Unknown with { Largest = current };
    }

    private NodeLevel Printed(string node, bool withOutputs)
    {
        PrintedOutput? output = withOutputs ? label?.FindOutput(node) : null;
        IEnumerable<PrintedInput> inputs = label?.Inputs.Where(input => !input.Alternating && input.Port is { } port && PortNames.Same(port, node)) ?? [];
        (Voltage Voltage, Current? Current, int Line)[] all =
        [
            .. output?.Fixed.Select(static mode => (mode.Voltage, (Current?)mode.Current, mode.At.Line)) ?? [],
            .. output?.Ranges.Select(static range => (range.Maximum, (Current?)range.Current, range.At.Line)) ?? [],
            .. inputs.Select(static input => (input.MaximumVoltage, input.Current, input.At.Line)),
        ];
        if (all.Length == 0)
        {
            return NodeLevel.Unknown;
        }

        (Voltage top, _, int line) = all.MaxBy(static mode => mode.Voltage);
        return new NodeLevel(NodeBasis.Printed, top, MomentOf(top), all.Max(static mode => mode.Current), $"line {line} of the label")
        {
            Outputs = [.. output?.Fixed.Select(static mode => (mode.Voltage, mode.Current)) ?? [], .. output?.Ranges.Select(static range => (range.Maximum, range.Current)) ?? []],
        };
    }

    private static Voltage MomentOf(Voltage top) => VbusLimits.OfFixed(top).Maximum + VbusLimits.SrcValid;

    private static NodeLevel OfVolts(NodeBasis basis, int millivolts, Phrase from) =>
        new(basis, Voltage.FromMillivolts(millivolts), Voltage.FromMillivolts(millivolts), null, from);
}
