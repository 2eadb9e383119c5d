using System.Collections.Immutable;
using Portwitness.PowerDelivery.Explanations;
using Portwitness.PowerDelivery.ExtendedBlocks;
using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Messages;
using Portwitness.PowerDelivery.VendorDefined;

namespace Portwitness.Analysis.Profile;

/// <summary>
/// Keeps what port, partner and cable say of themselves. The latest message of a kind and sender counts; the earlier one
/// is in the timeline.
/// </summary>
internal sealed class FactBook
{
    private static readonly HashSet<MessageKind> Telling =
    [
        MessageKind.SourceInfo, MessageKind.Revision, MessageKind.BatteryStatus, MessageKind.SourceCapabilitiesExtended,
        MessageKind.SinkCapabilitiesExtended, MessageKind.Status, MessageKind.PPSStatus, MessageKind.BatteryCapabilities,
        MessageKind.ManufacturerInfo, MessageKind.CountryCodes, MessageKind.CountryInfo,
    ];

    private readonly Dictionary<(MessageKind Kind, string Sender), ImmutableArray<PortFact>> _facts = [];

    /// <summary>The facts, in the order in which their kind was first told.</summary>
    public ImmutableArray<PortFact> Facts => [.. _facts.Values.SelectMany(facts => facts)];

    /// <summary>Takes a whole message, or the last chunk of one with its block.</summary>
    public void Learn(in MessageView view, SopKind sop, ReadOnlySpan<byte> known, DataBlock? block, long index, long timeUs)
    {
        MessageKind kind = view.Header.Kind;
        bool identity = kind == MessageKind.VendorDefined && view.CompleteObjects > 1
            && new VdmHeader(view.ObjectAt(0)).IsIdentity;
        if (identity || Telling.Contains(kind))
        {
            Keep(view, sop, known, block, identity ? "Discover Identity" : kind.Name, index, timeUs);
        }
    }

    private void Keep(in MessageView view, SopKind sop, ReadOnlySpan<byte> known, DataBlock? block, string name, long index, long timeUs)
    {
        string sender = sop != SopKind.Sop ? "cable" : view.Header.SourceOrCablePlug ? "source" : "sink";
        _facts[(view.Header.Kind, sender)] =
        [
            .. Explanation.Of(view, sop, known, block).Where(IsContent)
                .Select(field => new PortFact(name, sender, index, timeUs, field.Name, field.Meaning)),
        ];
    }

    private static bool IsContent(ExplainedField field) => field is { IsReserved: false, IsKnown: true, IsOfHeader: false };
}
