using Portwitness.Analysis;
using Portwitness.Analysis.Profile;
using Portwitness.Labels;
using Portwitness.PowerDelivery.Headers;

namespace Portwitness.Product.Offers;

/// <summary>What the captured port says that it takes, as a source with dual-role power.</summary>
/// <param name="Port">The port, as the label names it where it does.</param>
/// <param name="File">The capture's name.</param>
/// <param name="List">Its last list.</param>
public sealed record PortIntake(string Port, string File, Advertisement List)
{
    private const ushort RoleBit = 0x0100;

    /// <summary>What the ports of captures take, each as the label names it.</summary>
    public static IReadOnlyList<PortIntake> Of(Label label, IEnumerable<CaptureAnalysis> captures) =>
        [.. captures.Select(capture => Of(capture, label.FindOutput(capture.Port)?.Port ?? capture.Port)).OfType<PortIntake>()];

    /// <summary>
    /// The port's own list; null when there is none. Whose a sink's list is goes by the power roles, which only a completed
    /// power role swap changes (R3.2v1.1, 6.3.10).
    /// </summary>
    public static PortIntake? Of(CaptureAnalysis capture, string port)
    {
        Advertisement? list = capture.Advertisements.LastOrDefault(static one =>
            (one.Message == MessageKind.SinkCapabilities || one.Message == MessageKind.EPRSinkCapabilities)
            && (one.HeaderKnown & RoleBit) != 0 && one.IsOwn);
        return list is null ? null : new PortIntake(port, capture.File, list);
    }
}
