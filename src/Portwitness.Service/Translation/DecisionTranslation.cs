using System.Globalization;
using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Product;
using Portwitness.Product.Decisions;
using Portwitness.Product.Loads;

using Wire = Portwitness.Contracts.V1;

namespace Portwitness.Service.Translation;

/// <summary>What was measured: ports under load, and what has limits.</summary>
internal static class DecisionTranslation
{
    public static void AddDecisions(this Wire.ProductReport report, ProductAnalysis analysis)
    {
        report.DecisionRule = analysis.Decision == DecisionRule.Guarded ? "guarded" : "simple";
        report.Opened = analysis.Opened?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture) ?? "";
        report.Loads.AddRange(analysis.Loads.Select(ToContract));
        report.Decisions.AddRange(analysis.Decisions.Select(measured => ToContract(measured, analysis.Decision)));
    }

    private static Wire.LoadedPort ToContract(LoadEvidence load)
    {
        Wire.LoadedPort translated = new()
        {
            Port = load.Port, InUse = { load.InUse }, AtMv = load.At.Millivolts, MeasuredUv = load.Microvolts, MeasuredUa = load.Microamperes, File = load.Name,
        };
        if (load.TimeUs is { } time)
        {
            translated.ForUs = time;
        }

        return translated;
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
