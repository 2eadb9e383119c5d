using System.Collections.Immutable;
using Portwitness.Labels;
using Portwitness.Product.Offers;
using Portwitness.Product.Signalling;

namespace Portwitness.Product.Controllers;

/// <summary>A controller with what is printed, offered and answered at the ports that it drives.</summary>
/// <param name="Controller">The controller.</param>
/// <param name="IsCertain">Whether it is known which ports it drives; otherwise the ports are all that no other controller drives.</param>
/// <param name="Ports">Those ports.</param>
/// <param name="Label">The label; null when none is given.</param>
/// <param name="Offers">What those ports offer, under each arrangement.</param>
/// <param name="Signalling">What they answer to besides USB PD.</param>
public sealed record ControllerUse(
    ProductController Controller, bool IsCertain, ImmutableArray<string> Ports, Label? Label, ImmutableArray<PortOffer> Offers,
    ImmutableArray<PortSignalling> Signalling)
{
    /// <summary>The protocols of its data sheet.</summary>
    public ImmutableArray<ProtocolWord> Protocols { get; } = [.. Controller.Protocols.Select(ProtocolWord.Read)];

    /// <summary>The other controllers of the product, each with its ports, and this one.</summary>
    public ImmutableArray<ControllerUse> All { get; private init; } = [];

    /// <summary>The most that ports can give at once, in mW, were each controller's power that of each of its ports; null where it is not known.</summary>
    public long? MostOf(IEnumerable<string> ports)
    {
        ArgumentNullException.ThrowIfNull(ports);
        long sum = 0;
        foreach (string port in ports)
        {
            if (All.FirstOrDefault(use => use.IsCertain && use.Ports.Any(own => PortNames.Same(own, port)))?.Controller.Power is not { } most)
            {
                return null;
            }

            sum += most.Milliwatts;
        }

        return sum;
    }

    /// <summary>The most that one of its ports offers, in mW; null when none was captured.</summary>
    public int? MostMilliwatts => Offers.IsEmpty ? null : Offers.Max(static offer => offer.MostPowerMilliwatts);

    /// <summary>Whether what is printed of an output is of one of its ports.</summary>
    public bool Drives(PrintedOutput output)
    {
        ArgumentNullException.ThrowIfNull(output);
        return Ports.Any(port => PortNames.Same(port, output.Port)) || (output.Port == PortNames.Unnamed && Ports.Length == 1 && Label?.Outputs.Length == 1);
    }

    /// <summary>Each controller with its ports.</summary>
    public static ImmutableArray<ControllerUse> Of(
        ImmutableArray<ProductController> controllers, Label? label, IReadOnlyList<PortOffer> offers, ImmutableArray<PortSignalling> signalling)
    {
        string[] ports =
        [
            .. (label?.Outputs.Where(static output => output.Alternating.IsEmpty).Select(static output => output.Port) ?? [])
                .Concat(offers.Select(static offer => offer.Port)).Concat(signalling.Select(static port => port.Port)).DistinctBy(PortNames.Key),
        ];
        // The only output of a label that names none is that of the captures.
        ports = ports.Length > 1 ? [.. ports.Where(static port => port != PortNames.Unnamed)] : ports;
        ImmutableArray<ControllerUse> all = [.. controllers.Select(Use)];
        return [.. all.Select(use => use with { All = all })];

        ControllerUse Use(ProductController controller)
        {
            string[] own = controller.Ports.IsEmpty
                ? [.. ports.Where(port => !controllers.Any(other => other.Names(port)))]
                : [.. controller.Ports.Select(port => label?.FindOutput(port)?.Port ?? port)];
            bool isCertain = !controller.Ports.IsEmpty || (controllers.Length == 1 && ports.Length == 1);
            HashSet<string> keys = [.. own.Select(PortNames.Key)];
            return new ControllerUse(
                controller, isCertain, [.. own], label, [.. offers.Where(offer => keys.Contains(PortNames.Key(offer.Port)))],
                [.. signalling.Where(port => keys.Contains(PortNames.Key(port.Port)))]);
        }
    }
}
