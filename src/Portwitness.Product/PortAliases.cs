using System.Collections.Immutable;
using Portwitness.Labels;

namespace Portwitness.Product;

/// <summary>
/// Names that a product file says to mean one port. Whatever it names a port, and whatever captures name it, is told by the name that the
/// label prints, or by the port's own where it prints none of them.
/// </summary>
internal sealed class PortAliases
{
    private readonly Dictionary<string, string> _names = [];

    /// <summary>The names of a product, its label known or not.</summary>
    public PortAliases(ImmutableArray<ImmutableArray<string>> groups, Label? label)
    {
        foreach (ImmutableArray<string> group in groups)
        {
            string told = group.Select(name => label?.FindOutput(name)?.Port).OfType<string>().FirstOrDefault() ?? group[0];
            foreach (string name in group)
            {
                _names.TryAdd(PortNames.Key(name), told);
            }
        }
    }

    /// <summary>The name by which a port is told.</summary>
    public string Of(string port) => _names.Count == 0 ? port : _names.GetValueOrDefault(PortNames.Key(port), port);

    /// <summary>A product whose ports have these names.</summary>
    public ProductFile In(ProductFile product) => _names.Count == 0 ? product : product with
    {
        CaptivePorts = product.CaptivePorts.ToImmutableDictionary(one => Of(one.Key), static one => one.Value),
        Signalling = [.. product.Signalling.Select(one => (Of(one.Port), one.Word))],
        Captures = [.. product.Captures.Select(one => one with { Port = OrNull(one.Port), InUse = All(one.InUse) })],
        Offers = [.. product.Offers.Select(one => one with { Port = Of(one.Port), InUse = All(one.InUse) })],
        Loads = [.. product.Loads.Select(one => one with { Port = Of(one.Port), InUse = All(one.InUse) })],
        Logs = [.. product.Logs.Select(one => one with { Port = OrNull(one.Port), InUse = All(one.InUse) })],
        Parts = [.. product.Parts.Select(one => one with { Node = Of(one.Node) })],
        PassThrough = [.. product.PassThrough.Select(one => one with { Port = Of(one.Port), InUse = All(one.InUse), Inputs = All(one.Inputs) })],
        Claims = [.. product.Claims.Select(one => one with { Port = one.Port.Length == 0 ? "" : Of(one.Port) })],
        Converters = [.. product.Converters.Select(one => one with { Ports = All(one.Ports) })],
    };

    /// <summary>A further label with the same names, so that it can be held against the first one and against the evidence.</summary>
    public Label In(Label label) => _names.Count == 0 ? label : label with
    {
        Inputs = [.. label.Inputs.Select(one => one with { Port = OrNull(one.Port) })],
        InputMaxima = [.. label.InputMaxima.Select(one => one with { Port = OrNull(one.Port) })],
        Outputs = [.. label.Outputs.Select(one => one with { Port = Of(one.Port) })],
        Combinations = [.. label.Combinations.Select(In)],
        Ambiguous = [.. label.Ambiguous.Select(either => either with { Readings = [.. either.Readings.Select(In)] })],
        UnfitSplits = [.. label.UnfitSplits.Select(one => one with { Ports = All(one.Ports) })],
    };

    private PrintedCombination In(PrintedCombination together) => together with
    {
        Ports = All(together.Ports),
        Split = [.. together.Split.Select(share => share with { Port = Of(share.Port) })],
        Pools = [.. together.Pools.Select(pool => pool with { Ports = All(pool.Ports) })],
    };

    private string? OrNull(string? port) => port is null ? null : Of(port);

    private ImmutableArray<string> All(ImmutableArray<string> ports) => [.. ports.Select(Of)];
}
