using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Following.Links;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.VendorDefined;

namespace Portwitness.Analysis.Rules.Messages;

/// <summary>A data message holds another number of objects than its type has.</summary>
internal sealed class ObjectCountWrong : ContentRule
{
    // An ID header, Cert Stat and Product stand behind the VDM header (Figure 6.16; the count is derived).
    private const int LeastOfIdentity = 4;
    private const int MaxOfIdentity = 7;
    private const int BistTestDataObjects = 7;

    // Commands of structured VDMs (Table 6.29).
    private const int DiscoverIdentity = 1;
    private const int DiscoverSvids = 2;
    private const int DiscoverModes = 3;
    private const int ExitMode = 5;
    private const int Attention = 6;

    // R3.2v1.1, Table 6.6. Capability lists and Vendor_Defined have one to seven, which the header's field can hold.
    private static readonly Dictionary<MessageKind, int> Counts = new()
    {
        [MessageKind.Request] = 1,
        [MessageKind.BatteryStatus] = 1,
        [MessageKind.Alert] = 1,
        [MessageKind.GetCountryInfo] = 1,
        [MessageKind.EnterUSB] = 1,
        [MessageKind.EPRRequest] = 2,
        [MessageKind.EPRMode] = 1,
        [MessageKind.SourceInfo] = 1,
        [MessageKind.Revision] = 1,
    };

    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "object-count-wrong",
        Severity = Severity.Violation,
        Title = "A message holds another number of objects than its type has",
        Clause = "R3.2v1.1 Table 6.6, Figure 6.16",
        Why = "A receiver reads the objects that the type has. It takes a message with more or fewer for broken, or reads something else "
            + "than was meant.",
        Evidence = "The header, and the edition: others than R3.2v1.1 were not read.",
        Example = new MessageExample("AA2100000001AA000000", "EPR_Mode has two objects; the edition is not stated."),
        Category = RuleCategory.Messages,
    };

    /// <inheritdoc/>
    public override ContentFault? Find(in HeardMessage message)
    {
        MessageKind kind = message.Kind;
        int count = message.View.ClaimedObjects;

        // What the header announces and the message does not hold is another rule's matter.
        if (kind.Class != MessageClass.Data || message.View.CompleteObjects != count)
        {
            return null;
        }

        if (kind == MessageKind.BIST)
        {
            return count is 1 or BistTestDataObjects ? null : Fault($"{kind}", "1 object, or 7", count);
        }

        if (kind == MessageKind.VendorDefined)
        {
            VdmHeader header = new(message.View.ObjectAt(0));
            return count < LeastOfIdentity && header.IsIdentity
                ? Fault("The answer to Discover Identity", $"{LeastOfIdentity} to {MaxOfIdentity} objects", count)
                : OfCommand(header, count);
        }

        if (!Counts.TryGetValue(kind, out int right) || count == right)
        {
            return null;
        }

        // Text newer than R3.2v1.1 is said to add an object to Source_Info.
        return Fault($"{kind}", right == 1 ? "1 object" : Phrase.Of($"{right} objects"), count) with
        {
            IsNote = kind == MessageKind.SourceInfo && count == 2,
        };
    }

    // How many objects the standard's own commands have is from memory, so that it is no more than a note.
    private static ContentFault? OfCommand(VdmHeader header, int count)
    {
        if (header is not { Structured: true, VendorId: VdmHeader.PdSid })
        {
            return null;
        }

        bool isRefusal = header.CommandType is VdmCommandType.Nak or VdmCommandType.Busy;
        bool asks = header.CommandType == VdmCommandType.Request;
        (int least, int most) = header.Command switch
        {
            >= DiscoverIdentity and <= ExitMode when isRefusal => (1, 1),
            >= DiscoverIdentity and <= DiscoverModes when asks => (1, 1),
            DiscoverSvids or DiscoverModes => (2, MaxOfIdentity),
            Attention when asks => (1, 2),
            _ => (1, MaxOfIdentity),
        };
        return count >= least && count <= most ? null
            : Fault($"{header.CommandName} {header.CommandTypeName}",
                most == 1 ? "1 object" : Phrase.Of($"{least} to {most} objects"), count) with { IsNote = true };
    }

    private static ContentFault Fault(Phrase name, Phrase expected, int count) =>
        new($"{name} has {expected}; {count} came.", expected, count == 1 ? "1 object" : Phrase.Of($"{count} objects"));
}
