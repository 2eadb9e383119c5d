using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.PdpRules;
using Portwitness.Analysis.Profile;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.PowerData;

namespace Portwitness.Analysis.Rules.Capabilities;

/// <summary>A source of EPR offers a fixed voltage beside the normative ones.</summary>
/// <remarks>
/// R3.2v1.1 says both that an EPR source offers no optional voltages and that battery and variable objects may stay at the
/// SPR positions (10.2.3.1): only fixed supplies are held against it.
/// </remarks>
public sealed class OptionalVoltageFromEprSource : CapabilityRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "optional-voltage-from-epr-source",
        Severity = Severity.Violation,
        Title = "An EPR source offers a voltage of its own",
        Clause = "R3.2v1.1 10.2.3.1",
        Why = "EPR sources offer 5, 9, 15 and 20 V, and 28, 36 or 48 V, and nothing else, so that every device finds the same "
            + "at each. A position that another voltage takes is missing for PPS or AVS.",
        Evidence = "The edition, and the EPR Capable bit or EPR objects.",
        Editions = Editions.R32,
        Example = new ListExample("0x0881912C 0x00028190 0x0002D12C 0x0004B12C 0x000641F4", "8 V is offered.", Edition: Editions.R32),
        Category = RuleCategory.Capabilities,
    };

    /// <inheritdoc/>
    public override void Check(in ListCase list, IHitSink hits)
    {
        if (!list.IsSource || !IsEprSource(list) || list.Evidence.SettleEpr(Editions.R32) is not { } verdict)
        {
            return;
        }

        foreach (OfferedObject offered in list.Objects)
        {
            ReadOnlySpan<int> normative = list.IsEpr && offered.Position >= MessageLimits.FirstEprPosition
                ? PowerRules.EprNormativeMillivolts
                : PowerRules.NormativeMillivolts;
            if (offered.Is(PowerObjectKind.Fixed) && offered.HighestVoltage() is { Millivolts: > 0 } voltage
                && !normative.Contains(voltage.Millivolts) && !IsAtWrongPosition(list, offered, voltage.Millivolts))
            {
                hits.Report(this, new Hit(verdict, $"{offered} is an optional voltage; the source is one of EPR.")
                {
                    Position = offered.Position,
                    Expected = "5, 9, 15 and 20 V, and 28, 36 and 48 V from position 8 (R3.2)",
                    Observed = $"{voltage}",
                    NextStep = verdict == Verdict.CannotTell ? list.EditionStep : null,
                });
            }
        }
    }

    // Above 20 V at an SPR position is another rule's matter.
    private static bool IsAtWrongPosition(in ListCase list, OfferedObject offered, int millivolts) =>
        millivolts > Electrical.SprMaximumFixed.Millivolts
        && !(list.IsEpr && offered.Position >= MessageLimits.FirstEprPosition);

    private static bool IsEprSource(in ListCase list) =>
        (list.IsEpr && EprPowerFitter.HasEprObjects(list.Objects))
        || (!list.Objects.IsEmpty && list.Objects[0].Is(PowerObjectKind.Fixed)
            && list.Objects[0].Knows(FixedSourceSupply.EprCapableField) && list.Objects[0].AsSource().AsFixed().EprCapable);
}
