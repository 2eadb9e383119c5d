using System.Collections.Immutable;
using Portwitness.Labels;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Product.Controllers;

/// <summary>A port controller as its data sheet states it: an element of "parts:" with "kind: controller".</summary>
/// <param name="Name">Its name on the board.</param>
/// <param name="Power">The most that it gives; null when not stated.</param>
/// <param name="Protocols">The protocols of its data sheet; empty when not stated.</param>
/// <param name="Ports">The ports that it drives; empty when not stated.</param>
public sealed record ProductController(string Name, Power? Power, ImmutableArray<string> Protocols, ImmutableArray<string> Ports)
{
    /// <summary>"U1", or "U1 (65 W)".</summary>
    public string Text => Power is null ? Name : $"{Name} ({Power})";

    /// <summary>Whether it is said to drive a port.</summary>
    public bool Names(string port) => Ports.Any(one => PortNames.Same(one, port));
}
