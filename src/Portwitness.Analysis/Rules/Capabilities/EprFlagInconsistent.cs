using Portwitness.Analysis.Findings;
using Portwitness.Analysis.PdpRules;
using Portwitness.Analysis.Profile;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.PowerData;

namespace Portwitness.Analysis.Rules.Capabilities;

/// <summary>The EPR Capable bit contradicts what the port offers or declares.</summary>
public sealed class EprFlagInconsistent : PortRule
{
    private const ushort RevisionBits = 0x00C0;
    private const int Revision3Code = 2;

    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "epr-flag-inconsistent",
        Severity = Severity.Violation,
        Title = "EPR Capable contradicts what the port offers",
        Clause = "R3.2v1.1 6.4.1.2.1, Table 6.9",
        Why = "The bit stands in every list of a source that is designed for EPR mode, and in no other. Without it a device never asks "
            + "for more than 100 W; with it, on a smaller source, it asks in vain.",
        Evidence = "Lists with the bit shown, and an EPR list with EPR objects or a declared rating.",
        Editions = Editions.R31 | Editions.R32,
        Example = new(
            """
            source: [5V 3A, 9V 3A, 15V 3A, 20V 5A, SPR AVS 3A/5A, 28V 5A, EPR AVS 15-28V 140W]
            steps:
              - advertise
              - get-epr-source-cap
            """,
            "28 V is offered by a source that does not set EPR Capable.",
            IsScript: true),
        Category = "capabilities",
    };

    /// <inheritdoc/>
    public override void Check(PortStatements port, IPlacedHitSink hits)
    {
        bool offersEpr = port.Lists.Any(list => list.Message == PowerDelivery.Messages.MessageKind.EPRSourceCapabilities
            && EprPowerFitter.HasEprObjects(list.Objects.AsSpan()));
        SourceInfoStatement? declared = port.Infos.FirstOrDefault(stated => stated.Info.MaximumPdp.Milliwatts > 0);
        bool? declaresEpr = declared is null ? null : declared.Info.MaximumPdp > Electrical.SprMaximumPdp;
        foreach (Advertisement list in port.Lists)
        {
            if (!CapabilityList.IsOfSource(list.Message) || !SpeaksRevision3(list) || list.Objects is not [var first, ..]
                || !first.Is(PowerObjectKind.Fixed) || !first.Knows(FixedSourceSupply.EprCapableField))
            {
                continue;
            }

            bool flag = first.AsSource().AsFixed().EprCapable;
            if (!flag && offersEpr)
            {
                Report(hits, list, "The port offers EPR objects, but does not say that it is capable of EPR.", "set", "clear");
            }
            else if (!offersEpr && declaresEpr is { } larger && flag != larger)
            {
                Report(
                    hits, list, $"The port declares {declared!.Info.MaximumPdp}, which is {(larger ? "an" : "no")} EPR source.",
                    larger ? $"set above {Electrical.SprMaximumPdp}" : $"clear up to {Electrical.SprMaximumPdp}",
                    flag ? "set" : "clear");
            }
        }
    }

    // In a message of Revision 2.0 the bit is reserved.
    private static bool SpeaksRevision3(Advertisement list) =>
        (list.HeaderKnown & RevisionBits) == RevisionBits && list.Header.RevisionCode == Revision3Code;

    private void Report(IPlacedHitSink hits, Advertisement list, string detail, string expected, string observed) => hits.Report(
        this,
        new Hit(Verdict.Fails, detail)
        {
            Position = 1,
            Expected = $"EPR Capable {expected}",
            Observed = $"EPR Capable {observed} in {list.Message}",
        },
        PortStatements.PlaceOf(list));
}
