using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Profile;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.PowerData;

namespace Portwitness.Analysis.Rules.Capabilities;

/// <summary>A list has two AVS objects of one kind.</summary>
public sealed class AvsObjectRepeated : CapabilityRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "avs-object-repeated",
        Severity = Severity.Violation,
        Title = "A list holds two AVS objects of one kind",
        Clause = "R3.2v1.1 6.4.1.4, 6.5.15.1",
        Why = "A list holds one SPR AVS object at most, and an EPR list one EPR AVS object. A device cannot know which of two is "
            + "meant, and the second takes the place of something that it could ask for.",
        Evidence = "The kinds of both objects, and the edition: R3.1 was not read.",
        Editions = Editions.WithEpr,
        Example = new ListExample(
            "0x0801912C 0x0002D12C 0x0004B12C 0x00064145 0xE004B145 0xE004B145", "SPR AVS stands twice.", Edition: Editions.R32),
        Category = RuleCategory.Capabilities,
    };

    /// <inheritdoc/>
    public override void Check(in ListCase list, IHitSink hits)
    {
        OfferedObject? spr = null;
        OfferedObject? epr = null;
        foreach (OfferedObject offered in list.Objects)
        {
            if (offered.Is(PowerObjectKind.SprAvs))
            {
                // SPR AVS came with R3.2: who offers it claims to follow it.
                Report(list, spr, offered, Editions.R32, hits);
                spr ??= offered;
            }
            else if (offered.Is(PowerObjectKind.EprAvs))
            {
                Report(list, epr, offered, Editions.WithEpr, hits);
                epr ??= offered;
            }
        }
    }

    private void Report(in ListCase list, OfferedObject? first, OfferedObject offered, Editions known, IHitSink hits)
    {
        if (first is { } earlier)
        {
            Verdict verdict = list.Evidence.SettleAmong(known, Editions.R32) ?? Verdict.CannotTell;
            PowerObjectKind kind = offered.Kind;
            hits.Report(this, new Hit(verdict, $"Objects {earlier.Position} and {offered.Position} are both {kind}.")
            {
                Position = offered.Position,
                Expected = $"one {kind} object at most",
                Observed = $"{kind} at {earlier.Position} and {offered.Position}",
                NextStep = verdict == Verdict.CannotTell ? list.EditionStep : null,
            });
        }
    }
}
