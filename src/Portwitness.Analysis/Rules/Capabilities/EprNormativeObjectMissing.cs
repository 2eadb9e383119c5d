using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.PdpRules;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Profile;
using Portwitness.PowerDelivery.Limits;

namespace Portwitness.Analysis.Rules.Capabilities;

/// <summary>An EPR list lacks a voltage, or EPR AVS, that the PDP makes normative.</summary>
public sealed class EprNormativeObjectMissing : PdpRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "epr-normative-object-missing",
        Severity = Severity.Violation,
        Title = "An EPR list lacks a normative object",
        Clause = "R3.2v1.1 Tables 10.12 and 10.13",
        Why = "A source above 100 W offers 28 V, above 140 W also 36 V, above 180 W also 48 V, and EPR AVS. A device made for "
            + "what is missing stays at 20 V.",
        Evidence = "The edition (R3.1 was not read), and the port's PD power: declared, printed, or stated by EPR AVS.",
        Editions = Editions.WithEpr,
        Example = new MessageExample(
            EprExamples.List(0x0881912C, 0x0002D12C, 0x0004B12C, 0x000641F4, 0xE004B1F4, 0, 0, 0xD230968C),
            "A list of 140 W has EPR AVS, but no 28 V."),
        Category = RuleCategory.Capabilities,
    };

    private protected override PowerBreachKind Kind => PowerBreachKind.EprObjectMissing;

    private protected override Hit Describe(in ListCase list, PowerBreach breach) => new(
        default, $"A source of {list.Power} offers {What(breach)}; this list does not.")
    {
        Expected = breach.Millivolts == 0 ? "EPR AVS" : Phrase.Of($"fixed {What(breach)}, at least {breach.ExpectedText}"),
        Observed = "not offered",
    };

    private static Phrase What(PowerBreach breach) => breach.Millivolts == 0 ? "EPR AVS" : Phrase.Of($"{PowerRules.Volts(breach.Millivolts)}");
}
