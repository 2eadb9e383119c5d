using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.PdpRules;
using Portwitness.Analysis.Profile;

namespace Portwitness.Analysis.Rules.Capabilities;

/// <summary>A battery supply offers more than the PDP.</summary>
public sealed class BatteryPowerBeyondPdp : PdpRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "battery-power-beyond-pdp",
        Severity = Severity.Violation,
        Title = "A battery supply offers more than the PD power",
        Clause = "R3.2v1.1 10.2",
        Why = "A battery supply names its power outright, and that is at most the PD power. A device that draws more makes the "
            + "source shut down or overheat.",
        Evidence = "The PD power: declared by the port, printed, or shown by the fixed supplies of the list.",
        Example = new ListExample("0x0801912C 0x0002D12C 0x5A4108F0", "60 W from a battery; the fixed supplies are those of 27 W."),
        Category = RuleCategory.Capabilities,
    };

    private protected override PowerBreachKind Kind => PowerBreachKind.BatteryBeyondPdp;

    private protected override Hit Describe(in ListCase list, PowerBreach breach) => new(
        default, $"{list.Objects[breach.Position - 1]} is more than a source of {list.Power} may offer.")
    {
        Expected = $"at most {breach.ExpectedText}",
        Observed = breach.ObservedText,
    };
}
