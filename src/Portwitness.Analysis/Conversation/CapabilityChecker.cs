using System.Buffers.Binary;
using Portwitness.Analysis.Catalogue;
using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.PdpRules;
using Portwitness.Analysis.Profile;
using Portwitness.Analysis.Rules;
using Portwitness.PowerDelivery.ExtendedBlocks;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.Messages;
using Portwitness.PowerDelivery.PowerData;

namespace Portwitness.Analysis.Conversation;

/// <summary>Runs the selected capability rules on one list. Allocates only for what it finds.</summary>
public static class CapabilityChecker
{
    private const int ObjectBytes = 4;

    /// <summary>Takes the objects out of a message that is a capability list.</summary>
    /// <remarks>A header cannot say more than seven; what stands behind the seventh is read too, so that it is seen.</remarks>
    /// <param name="view">The message.</param>
    /// <param name="known">Mask of the bits that were shown, as long as the message; empty when all were.</param>
    /// <param name="objects">Room for <see cref="MessageLimits.MaxExtendedObjects"/>.</param>
    /// <returns>How many objects there are.</returns>
    public static int ReadObjects(in MessageView view, ReadOnlySpan<byte> known, Span<OfferedObject> objects)
    {
        int headerBytes = view.ExtendedHeader is null ? 2 : 4;
        int present = view.Header.Extended ? view.Data.Length / ObjectBytes
            : view.ClaimedObjects == MessageLimits.MaxSprObjects ? view.Payload.Length / ObjectBytes
            : view.CompleteObjects;
        int count = Math.Min(present, objects.Length);
        for (int index = 0; index < count; index++)
        {
            uint shown = known.IsEmpty
                ? uint.MaxValue
                : BinaryPrimitives.ReadUInt32LittleEndian(known[(headerBytes + (ObjectBytes * index))..]);
            objects[index] = new OfferedObject(
                index + 1, BinaryPrimitives.ReadUInt32LittleEndian(view.Payload[(ObjectBytes * index)..]) & shown, shown);
        }

        return count;
    }

    /// <summary>Takes the objects out of a data block that was put together.</summary>
    public static int ReadObjects(EprCapabilitiesBlock block, Span<OfferedObject> objects)
    {
        int count = 0;
        foreach (EprListObject offered in block.Objects)
        {
            if (count < objects.Length)
            {
                objects[count++] = new OfferedObject(offered.Position, offered.Raw & offered.Known, offered.Known);
            }
        }

        return count;
    }

    /// <summary>Runs the rules on a list of a capture and gives the PDP that it was judged by.</summary>
    public static PowerFit Check(Advertisement list, SourceEvidence evidence, RuleSet rules, IHitSink hits) =>
        list.IsUnchecked ? Check(list with { IsUnchecked = false }, evidence, rules, new DoubtedHits(hits, CaptureSteps.ComparePhoto))
            : list is { RoleIsCertain: false, ByPartner: false }
            ? Check(list with { RoleIsCertain = true }, evidence, rules, new DoubtedHits(hits, CaptureSteps.WholeSwap))
            : list.MayBeCut ? CutListCheck.Check(list, evidence, rules, hits)
            : list.CurrentRoundingMilliamperes > 0
            ? RoundedListCheck.Check(list, evidence, rules, hits)
            : CheckExact(list, evidence, rules, hits);

    /// <summary>The same for a list whose currents are as they are written.</summary>
    internal static PowerFit CheckExact(Advertisement list, SourceEvidence evidence, RuleSet rules, IHitSink hits)
    {
        ListCase received = new(list, evidence);
        ListCase judged = new(list, evidence) { Power = Fit(received) };
        IHitSink told = list.ByPartner ? new PartnerHits(hits) : hits;
        foreach (CapabilityRule rule in rules.Capabilities)
        {
            rule.Check(judged, told);
        }

        return judged.Power;
    }

    private static PowerFit Fit(in ListCase list) => !list.IsSource ? default
        : list.IsEpr && EprPowerFitter.HasEprObjects(list.Objects)
            ? EprPowerFitter.Fit(list.Objects, list.Evidence, list.InEprMode == true)
            : PowerFitter.Fit(list.Objects, list.Evidence);
}
