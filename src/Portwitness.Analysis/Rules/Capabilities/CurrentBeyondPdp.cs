using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.PdpRules;
using Portwitness.Analysis.Profile;

namespace Portwitness.Analysis.Rules.Capabilities;

/// <summary>An object offers more than the PDP.</summary>
public sealed class CurrentBeyondPdp : PdpRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "current-beyond-pdp",
        Severity = Severity.Violation,
        Title = "An object offers more than the PD power",
        Clause = "R3.2v1.1 10.2",
        EarlierClauses = SinceR20,
        Why = "The current of an object is the PD power divided by the voltage, rounded down or up to 10 mA. An object that "
            + "offers more promises power that the source is not rated for; it may overheat or switch off.",
        Evidence = "The PD power: declared by the port, printed, or shown by the rest of "
            + "the list; of EPR objects also the edition.",
        Example = new ListExample(
            "0x0801912C 0x00028190 0x0002D0DE", "8 V 4 A is 32 W; the rest of the list is that of a 20 W source."),
        Category = RuleCategory.Capabilities,
    };

    private protected override PowerBreachKind Kind => PowerBreachKind.BeyondPdp;

    private protected override Hit Describe(in ListCase list, PowerBreach breach) => new(
        default, $"{list.Objects[breach.Position - 1]} is more than a source of {list.Power} may offer.")
    {
        Expected = $"at most {breach.ExpectedText}",
        Observed = breach.ObservedText,
    };
}
