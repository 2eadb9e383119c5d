using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Profile;
using Portwitness.PowerDelivery.Layout;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.PowerData;

namespace Portwitness.Analysis.Rules.Capabilities;

/// <summary>Bits that the standard reserves are not zero.</summary>
public sealed class ReservedBitsSet : CapabilityRule
{
    // Unchunked Extended Messages Supported came with R3.0, EPR Capable with R3.1: before, these bits of the first object were reserved
    // (of which the text was not read).
    private const uint SinceR30 = 0x01800000;
    private const uint SinceR31 = 0x00800000;

    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "reserved-bits-set",
        Severity = Severity.Violation,
        Title = "Reserved bits of an object are set",
        Clause = "R3.2v1.1 Tables 6.9 to 6.22",
        Why = "Reserved bits are sent as zero. A later edition may give them a meaning, and a device that knows it will "
            + "then take the object for something that it is not.",
        Evidence = "The bits themselves; an instrument that shows values only does not tell.",
        Example = new ListExample("0x0041912C", "Bit 22 of the 5 V object is set."),
        Category = RuleCategory.Capabilities,
    };

    /// <inheritdoc/>
    public override void Check(in ListCase list, IHitSink hits)
    {
        foreach (OfferedObject offered in list.Objects)
        {
            if (!offered.KindIsKnown || offered.IsZero)
            {
                continue;
            }

            BitLayout layout = list.IsSource
                ? offered.AsSource().Layout
                : new SinkPowerObject(offered.Raw).Layout;
            ReportLater(list, offered, hits);
            uint set = offered.Raw & offered.Known & layout.ReservedMask;
            if (set != 0)
            {
                hits.Report(this, new Hit(Verdict.Fails, $"{layout.Name}: reserved bits are set.")
                {
                    Position = offered.Position,
                    Expected = "0",
                    Observed = $"bits 0x{set:X8} of 0x{offered.Raw:X8}",
                });
            }
        }
    }

    private void ReportLater(in ListCase list, OfferedObject offered, IHitSink hits)
    {
        Editions open = list.Evidence.Editions;
        uint later = list.Evidence.IsBeforeR30 ? SinceR30 : open == Editions.R30 ? SinceR31 : 0;
        bool isFirst = list.IsSource && offered.Position == 1 && offered.Kind == PowerObjectKind.Fixed;
        uint set = isFirst ? offered.Raw & offered.Known & later : 0;
        if (set != 0)
        {
            hits.Report(this, new Hit(
                Verdict.CannotTell, $"{offered} sets bits that only a later edition than {open} names.")
            {
                Position = offered.Position,
                Expected = "0",
                Observed = $"bits 0x{set:X8} of 0x{offered.Raw:X8}",
                NextStep = "Capture the source's Revision message, or compare with the text of that edition.",
            });
        }
    }
}
