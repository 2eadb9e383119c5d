using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.PdpRules;
using Portwitness.Analysis.Profile;

namespace Portwitness.Analysis.Rules.Capabilities;

/// <summary>A voltage that the PDP makes normative is not offered.</summary>
public sealed class NormativeVoltageMissing : PdpRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "normative-voltage-missing",
        Severity = Severity.Violation,
        Title = "A normative voltage is not offered",
        Clause = "R3.2v1.1 Tables 10.2 and 10.3",
        EarlierClauses = SinceR20,
        Why = "A source above 15 W offers 9 V, above 27 W also 15 V, above 45 W also 20 V. A device made for the missing "
            + "voltage falls back to a lower one and charges slowly.",
        Evidence = "The whole list, the PD power, and whether the port can share its power.",
        Example = new ListExample("0x0801912C 0x0002D12C 0x0006412C", "20 V 3 A makes it a 60 W source; 15 V is missing."),
        Category = RuleCategory.Capabilities,
    };

    private protected override PowerBreachKind Kind => PowerBreachKind.VoltageMissing;

    private protected override Hit Describe(in ListCase list, PowerBreach breach) => new(
        default, $"A source of {list.Power} offers {PowerRules.Volts(breach.Millivolts)}; this list has no such fixed object.")
    {
        Expected = $"fixed {PowerRules.Volts(breach.Millivolts)}, at least {PowerRules.Amperes(breach.Expected)}",
        Observed = "not offered",
    };
}
