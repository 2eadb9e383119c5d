using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.PdpRules;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Profile;

namespace Portwitness.Analysis.Rules.Capabilities;

/// <summary>A normative voltage is offered with less current than the PDP asks for.</summary>
public sealed class NormativeCurrentTooLow : PdpRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "normative-current-too-low",
        Severity = Severity.Violation,
        Title = "A normative voltage has too little current",
        Clause = "R3.2v1.1 Tables 10.2, 10.3, 10.12 and 10.13",
        EarlierClauses = SinceR20,
        Why = "A source of more power serves every device made for less. With less than 3 A at a lower voltage, a device "
            + "that uses that voltage gets less than from a smaller charger.",
        Evidence = "The PD power, the cable where 3 A would explain it, and whether the port can share its power.",
        Example = new ListExample("0x0801912C 0x0002D0C8 0x0004B12C 0x00064145", "9 V has 2 A where a 65 W source owes 3 A."),
        Category = RuleCategory.Capabilities,
    };

    private protected override PowerBreachKind Kind => PowerBreachKind.CurrentTooLow;

    private protected override Hit Describe(in ListCase list, PowerBreach breach) => new(
        default,
        Phrase.Of($"A source of {list.Power} owes {breach.ExpectedText} at {Where(breach)}")
        + (breach.HiddenByCable ? "; over a 3 A cable it would offer 3 A." : "."))
    {
        Expected = $"at least {breach.ExpectedText}",
        Observed = breach.ObservedText,
    };

    private static Phrase Where(PowerBreach breach) => breach.Millivolts == 0 ? "EPR AVS" : Phrase.Of($"{PowerRules.Volts(breach.Millivolts)}");
}
