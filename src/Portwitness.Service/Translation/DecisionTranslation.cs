using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Product;
using Portwitness.Product.Decisions;

using Wire = Portwitness.Contracts.V1;

namespace Portwitness.Service.Translation;

/// <summary>What was measured and has limits.</summary>
internal static class DecisionTranslation
{
    public static void AddDecisions(this Wire.ProductReport report, ProductAnalysis analysis)
    {
        report.DecisionRule = analysis.Decision == DecisionRule.Guarded ? "guarded" : "simple";
        report.Decisions.AddRange(analysis.Decisions.Select(measured => ToContract(measured, analysis.Decision)));
    }

    private static Wire.MeasuredDecision ToContract(MeasuredDecision measured, DecisionRule rule)
    {
        Wire.MeasuredDecision translated = new()
        {
            Port = measured.Port, InUse = { measured.InUse }, About = PhraseText.Of(measured.About), Unit = PhraseTranslation.UnitOf(measured.Unit),
            Value = measured.Value, Expanded = measured.Expanded, Guard = measured.Guard, File = measured.File,
            Verdict = ((Verdict?)measured.Word.By(rule, measured.IsStated)).ToContract(),
            Word = measured.Word switch
            {
                DecisionWord.Pass => "pass",
                DecisionWord.ConditionalPass => "conditional pass",
                DecisionWord.ConditionalFail => "conditional fail",
                _ => "fail",
            },
        };
        if (measured.Least is { } least)
        {
            translated.Least = least;
        }

        if (measured.Most is { } most)
        {
            translated.Most = most;
        }

        if (measured.LabelLine is { } line)
        {
            translated.LabelLine = line;
        }

        return translated;
    }
}
