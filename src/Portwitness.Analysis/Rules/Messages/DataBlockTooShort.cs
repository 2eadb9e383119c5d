using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Following.Links;
using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Limits;

namespace Portwitness.Analysis.Rules.Messages;

/// <summary>The data block of an extended message is shorter than its fields.</summary>
/// <remarks>A longer one is no fault: newer editions add fields, which are passed over (R3.2v1.1, 6.2.1.2.4).</remarks>
internal sealed class DataBlockTooShort : ContentRule
{
    private const int WordBytes = 4;

    // R3.2v1.1, Table 6.53: the least Data Size. In older editions three blocks were shorter (from memory).
    private static readonly Dictionary<MessageKind, (int Least, int Before)> Sizes = new()
    {
        [MessageKind.SourceCapabilitiesExtended] = (25, 24),
        [MessageKind.Status] = (7, 5),
        [MessageKind.GetBatteryCap] = (1, 1),
        [MessageKind.GetBatteryStatus] = (1, 1),
        [MessageKind.BatteryCapabilities] = (9, 9),
        [MessageKind.GetManufacturerInfo] = (2, 2),
        [MessageKind.ManufacturerInfo] = (5, 5),
        [MessageKind.PPSStatus] = (4, 4),
        [MessageKind.CountryInfo] = (4, 4),
        [MessageKind.SinkCapabilitiesExtended] = (24, 21),
        [MessageKind.ExtendedControl] = (2, 2),
        [MessageKind.EPRSourceCapabilities] = (28, 28),
        [MessageKind.EPRSinkCapabilities] = (28, 28),
        [MessageKind.VendorDefinedExtended] = (4, 4),
    };

    private static readonly (int Least, int Before) OfCablePlug = (2, 2);

    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "data-block-too-short",
        Severity = Severity.Violation,
        Title = "A data block is shorter than its fields",
        Clause = "R3.2v1.1 Table 6.53, 6.2.1.2.4",
        Why = "The fields at the end are missing. A device reads what stands behind the message there, or takes the message for broken.",
        Evidence = "The extended header, and the edition: of R3.0 and R3.1 the sizes are from memory.",
        Editions = Editions.R3x,
        Example = new MessageExample("A2A10380000000000000", "Status has 3 bytes; the edition is not stated."),
        Category = RuleCategory.Messages,
    };

    /// <inheritdoc/>
    public override ContentFault? Find(in HeardMessage message)
    {
        // Every chunk states the size of the whole block; the first one speaks for it.
        if (message.View.ExtendedHeader is not { RequestChunk: false, ChunkNumber: 0 } extended
            || !Sizes.TryGetValue(message.Kind, out (int Least, int Before) size))
        {
            return null;
        }

        if (message.Kind == MessageKind.Status && message.Sop != SopKind.Sop)
        {
            size = OfCablePlug;
        }

        bool isList = message.Kind == MessageKind.EPRSourceCapabilities || message.Kind == MessageKind.EPRSinkCapabilities;
        bool brokenWord = isList && extended.DataSize % WordBytes != 0;
        return extended.DataSize >= size.Least && !brokenWord ? null
            : new ContentFault(
                $"{message.Kind} has at least {Bytes(size.Least)}{(isList ? ", in whole objects" : "")};"
                + $" Data Size is {extended.DataSize}.",
                $"at least {Bytes(size.Least)}", Bytes(extended.DataSize))
            {
                WrongUnder = extended.DataSize < size.Before || brokenWord ? Editions.All : Editions.R32,
            };
    }

    private static Phrase Bytes(int count) => count == 1 ? "1 byte" : Phrase.Of($"{count} bytes");
}
