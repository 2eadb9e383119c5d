using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.PdpRules;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Profile;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.PowerData;

namespace Portwitness.Analysis.Rules.Capabilities;

/// <summary>A PPS range offers more than the PDP.</summary>
/// <remarks>
/// The current is held against the voltage that the range is named after (9, 15 or 20 V), not against its end. R3.2v1.1 contradicts
/// itself on ranges that the PDP does not make normative (10.2 and example 5 of 10.2.3.2.2), and on what Power Limited allows
/// (6.4.1.2.4.1.1 and 10.2): the former are noted, the latter cannot be told.
/// </remarks>
public sealed class PpsCurrentBeyondPdp : CapabilityRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "pps-current-beyond-pdp",
        Severity = Severity.Violation,
        Title = "A PPS range offers more than the PD power",
        Clause = "R3.2v1.1 10.2, Table 10.10",
        Why = "The current of a PPS range is the PD power divided by the voltage that the range is named after, rounded down to 50 mA. A "
            + "device that draws more than that makes the source overheat or switch off.",
        Evidence = "The edition (R3.0 and R3.1 were not read), the PD power, and that Power Limited is clear.",
        Editions = Editions.R3x,
        Example = new ListExample(
            "0x0801912C 0x0002D12C 0x0004B12C 0x00064145 0xE004B145 0xC1A43264", "A 65 W source has 5 A up to 21 V.", Edition: Editions.R32),
        Category = RuleCategory.Capabilities,
    };

    /// <inheritdoc/>
    public override void Check(in ListCase list, IHitSink hits)
    {
        if (!list.IsSource || Pdp(list) is not { } pdp || list.Evidence.SettleAmong(Editions.R3x, Editions.R32) is not { } settled)
        {
            return;
        }

        foreach (OfferedObject offered in list.Objects)
        {
            if (!offered.Is(PowerObjectKind.Pps) || offered.HighestVoltage() is not { } end || PpsRules.ProgOf(end) is not { } prog
                || offered.MaximumCurrent() is not { } current || current.Milliamperes <= PpsRules.MaximumFor(prog, pdp)
                || current.Milliamperes > PowerRules.ConnectorMilliamperes)
            {
                continue;
            }

            bool normative = PpsRules.MinimumFor(prog, pdp, list.InEprMode == true) is not null;
            bool clear = offered.Knows(PpsSourceSupply.PowerLimitedField) && !offered.AsSource().AsPps().PowerLimited;
            hits.Report(this, new Hit(
                clear ? settled : Verdict.CannotTell,
                Phrase.Of($"{offered} is more than a source of {list.Power} may offer at {PowerRules.Volts(prog)}.")
                + (normative ? "" : " Its power does not make the range normative, and R3.2v1.1 contradicts itself on its current."))
            {
                Position = offered.Position,
                Expected = $"at most {PowerRules.Amperes(PpsRules.MaximumFor(prog, pdp))}",
                Observed = $"{current}",
                IsNote = !normative,
                NextStep = !normative || (clear && settled == Verdict.Fails) ? null
                    : !clear ? "Measure what the source gives at the end of the range: with Power Limited set it may give less there."
                    : (list.Evidence.Editions & Editions.R32) == 0 ? PpsRule.UnreadNextStep
                    : list.EditionStep,
            });
        }
    }

    // A source of EPR gives 100 W at most in its SPR objects, and may give less at its fixed 20 V (10.2.3.3). A power that the list
    // does not keep to says nothing.
    private static int? Pdp(in ListCase list)
    {
        if (list.Power.PdpMilliwatts == 0 || (list.Power.Basis == PdpBasis.Derived && !list.Power.HoldsInFull) || list.Objects.IsEmpty)
        {
            return null;
        }

        OfferedObject first = list.Objects[0];
        bool mayBeEpr = !first.Is(PowerObjectKind.Fixed) || !first.Knows(FixedSourceSupply.EprCapableField)
            || first.AsSource().AsFixed().EprCapable;
        return list.Power.Basis == PdpBasis.Derived && mayBeEpr
            && list.Power.PdpMilliwatts > PowerRules.NormativeAbove(Electrical.SprMaximumFixed.Millivolts)
                ? PowerRules.SprMaximumMilliwatts
                : list.Power.PdpMilliwatts;
    }
}
