using System.Collections.Immutable;
using Portwitness.Analysis.Profile;
using Portwitness.PowerDelivery.Messages;

namespace Portwitness.Analysis.Comparison;

/// <summary>Takes the offers of each arrangement out of analysed captures.</summary>
internal static class PortOffers
{
    /// <summary>The last list of each arrangement of a capture.</summary>
    /// <param name="capture">The capture.</param>
    /// <param name="port">The port as the label names it.</param>
    /// <param name="mayBeManaged">Whether the port can share power with others.</param>
    public static IEnumerable<PortOffer> Of(CaptureAnalysis capture, string port, bool mayBeManaged)
    {
        IEnumerable<IGrouping<string, Advertisement>> arrangements = capture.Advertisements
            .Where(list => CapabilityList.IsOfSource(list.Message) && !list.ByPartner)
            .GroupBy(list => string.Join('\n', list.InUse.Order(StringComparer.Ordinal)));
        foreach (IGrouping<string, Advertisement> lists in arrangements)
        {
            Advertisement list = lists.LastOrDefault(l => l.Message == MessageKind.EPRSourceCapabilities) ?? lists.Last();
            yield return new PortOffer
            {
                Port = port,
                InUse = list.InUse.IsEmpty ? ImmutableArray.Create(port) : list.InUse,
                File = capture.File,
                List = list,
                SprList = lists.LastOrDefault(static l => l.Message == MessageKind.SourceCapabilities),
                Editions = capture.Editions,
                Cable = capture.CableEvidence,
                MayListMore = mayBeManaged && !capture.AnyContract,
            };
        }
    }
}
