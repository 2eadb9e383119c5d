using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Findings;
using Portwitness.Analysis.Phrases;
using Portwitness.Labels;

namespace Portwitness.Product;

/// <summary>
/// What was recognised on a photo and compared with it by nobody accuses nobody: a digit that was recognised wrongly would. What would fail by it
/// cannot be told, until a person has looked.
/// </summary>
internal static class UncheckedLabel
{
    /// <summary>A statement, which holds or cannot be told.</summary>
    public static Statement Soften(Statement statement, Label label) => label.IsUnchecked && statement.Verdict == Verdict.Fails
        ? statement with { Verdict = Verdict.CannotTell, NextStep = Look(statement.At.Line) }
        : statement;

    /// <summary>A finding that rests on a line of the label.</summary>
    public static Finding Soften(Finding finding, Label? label) => label is { IsUnchecked: true } && finding is { LabelLine: { } line, Verdict: Verdict.Fails }
        ? finding with { Verdict = Verdict.CannotTell, Severity = Severity.Caution, NextStep = Look(line) }
        : finding;

    private static Phrase Look(int line) =>
        $"Compare line {line} of the label with the photo; then write \"checked: true\" beside \"photo:\", or put it right under \"label_corrections:\".";
}
