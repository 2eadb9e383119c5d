using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.PdpRules;
using Portwitness.Analysis.Profile;
using Portwitness.PowerDelivery.Limits;

namespace Portwitness.Analysis.Rules.Capabilities;

/// <summary>An EPR voltage is offered that the PDP does not allow.</summary>
public sealed class EprVoltageBeyondPdp : PdpRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "epr-voltage-beyond-pdp",
        Severity = Severity.Violation,
        Title = "An EPR voltage is too high for the PD power",
        Clause = "R3.2v1.1 Table 10.12",
        Why = "28 V belongs to sources up to 140 W, 36 V to those up to 180 W, 48 V to those above. A voltage beyond that "
            + "brings the risks of a higher voltage without its power.",
        Evidence = "The edition (R3.1 was not read), and the port's maximum PD power: declared, printed, or stated by EPR AVS.",
        Editions = Editions.WithEpr,
        Example = new MessageExample(
            EprExamples.List(
                0x0881912C, 0x0002D12C, 0x0004B12C, 0x000641F4, 0xE004B1F4, 0, 0, 0x0008C1F4, 0x000B4184, 0xD230968C),
            "36 V is offered; EPR AVS states 140 W."),
        Category = RuleCategory.Capabilities,
    };

    private protected override PowerBreachKind Kind => PowerBreachKind.EprVoltageNotAllowed;

    private protected override Hit Describe(in ListCase list, PowerBreach breach) => new(
        default,
        $"{PowerRules.Volts(breach.Millivolts)} is for sources above "
            + $"{PowerRules.Watts(PowerRules.NormativeAbove(breach.Millivolts) ?? 0)}; this one has {list.Power}.")
    {
        Expected = $"at most {PowerRules.Volts(PowerRules.EprAvsEnd(list.Power.PdpMilliwatts))}",
        Observed = $"{PowerRules.Volts(breach.Millivolts)}",
    };
}
